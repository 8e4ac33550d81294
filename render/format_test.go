package render

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/render/markup"
	"guidecoat/render/tongue"
)

// spaced shows the spaces that do not break as plain ones.
func spaced(s string) string { return strings.ReplaceAll(s, nbsp, " ") }

func written(write func(*markup.W)) string { return string(markup.Page(nil, "", write)) }

// english is a site of nothing, in English.
var english = &site{voice: &voice{Tongue: tongue.Of("", nil)}}

func wholes(v float64) string { return english.Grouped(int(v)) }

func TestFormat(t *testing.T) {
	gbp, _ := money.Lookup("GBP")
	jpy, _ := money.Lookup("JPY")
	s, y := &voice{tongue.Of("", nil), gbp, ""}, &voice{tongue.Of("", nil), jpy, ""}
	d := decimal.RequireFromString
	a, b := measure.NewDate(2026, 4, 11), measure.NewDate(2026, 7, 20)
	for _, c := range [][2]string{
		{s.Day(a), "11 April 2026"}, {s.Day(0), ""}, {s.ShortDay(a, false), "11 Apr"}, {s.ShortDay(a, true), "11 Apr 2026"}, {s.ShortDay(0, true), ""}, {s.Month(a), "April 2026"}, {monthID(a), "2026-04"},
		{s.Span(a, b), "11 April – 20 July 2026"}, {s.Span(a, a), "11 April 2026"}, {s.Span(a, measure.NewDate(2027, 1, 2)), "11 April 2026 – 2 January 2027"},
		{written(func(w *markup.W) { writeTime(w, a, s.Day(a)) }), `<time datetime="2026-04-11">11 April 2026</time>`}, {written(func(w *markup.W) { writeTime(w, 0, "") }), ""},
		{s.Minutes(220), "3 h 40 min"}, {s.Minutes(180), "3 h"}, {s.Minutes(40), "40 min"}, {s.Minutes(0), "0 min"}, {s.Minutes(75000), "1,250 h"},
		{s.Name("abs-ring-left"), "ABS ring left"}, {s.Name("absorber"), "absorber"}, {title(s.Name("srs-scan")), "SRS scan"},
		{s.Grouped(7), "7"}, {s.Grouped(1234567), "1,234,567"},
		{s.Say("%d sessions", 1), "1 session"}, {s.Say("%d sessions", 2), "2 sessions"}, {s.Say("%d temporary fixes", 3), "3 temporary fixes"},
		{s.List("a"), "a"}, {s.List("a", "b"), "a and b"}, {s.List("a", "b", "c"), "a, b and c"}, {s.List(), ""},
		{s.sum(d("1250")), "£1,250.00"}, {s.sum(d("-5")), "−£5.00"}, {s.round(d("1250.50")), "£1,251"}, {y.sum(d("1250")), "1,250 JPY"},
		{s.three(fact.Three{d("260"), d("340"), d("520")}), "£260.00 · £340.00 · £520.00"}, {s.three(fact.Three{d("5"), d("5"), d("5")}), "£5.00"},
		{s.three(fact.Three{d("5.5"), d("6"), d("7")}), "£5.50 · £6.00 · £7.00"},
		{s.chance(0), "0 in 100"}, {s.chance(0.001), "under 1 in 100"}, {s.chance(0.724), "72 in 100"}, {s.chance(0.999), "over 99 in 100"}, {s.chance(1), "100 in 100"},
		{s.Percent(-0.114), "−11 %"}, {number(1.005), "1"}, {number(-0.001), "0"}, {number(12.345), "12.35"},
		{s.Distance("91352 mi"), "91,352 mi"}, {s.Distance("91252.4 mi"), "91,252.4 mi"}, {s.Distance("soon"), "soon"}, {s.Distance(""), ""},
		{title("über alles"), "Über alles"}, {title(""), ""}, {title(s.Name("vin")), "VIN"}, {s.Name("wheel-retorque"), "wheel retorque"},
		{shorten("a short one", 20), "a short one"}, {shorten("one two three four", 12), "one two…"},
		{written(func(w *markup.W) { writeLink(w, Link{Text: `<b>&`, Href: "a.html#x"}) }), `<a href="a.html#x">&lt;b&gt;&amp;</a>`}, {written(func(w *markup.W) { writeLink(w, Link{Text: `<b>`}) }), "&lt;b&gt;"},
	} {
		if spaced(c[0]) != c[1] {
			t.Errorf("%q, want %q", spaced(c[0]), c[1])
		}
	}
}

func TestSlug(t *testing.T) {
	for name, want := range map[string]string{
		"2026-04-18 axle": "2026-04-18-axle", "Bjelke på plass": "bjelke-pa-plass", "ØKSE & Æble": "okse-aeble", "straße": "strasse",
		"../../etc/passwd": "etc-passwd", "": "x", "日本": "x", "CON": "xcon", "com1": "xcom1", "index": "xindex", "a__b": "a-b",
	} {
		if got := slug(name); got != want {
			t.Errorf("slug(%q) = %q, want %q", name, got, want)
		}
	}
	if got := slug(strings.Repeat("long ", 100)); len(got) > 81 {
		t.Errorf("a slug of %d", len(got))
	}
	taken := map[string]int{}
	for _, want := range []string{"s/a.html", "s/a-2.html", "s/a-3.html"} {
		if got := unique(taken, "s/", "A", ".html"); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

func TestNiceStep(t *testing.T) {
	for top, want := range map[float64]float64{0: 1, 4: 1, 9: 2, 4150: 1000, 4700: 1000, 5001: 2000, 0.3: 0.1, 12000: 5000} {
		if got := niceStep(top, 5); got != want {
			t.Errorf("up to %v: %v, want %v", top, got, want)
		}
	}
}

func TestMonthTicks(t *testing.T) {
	at := func(measure.Date) float64 { return 0 }
	names := func(from, to measure.Date, room int) string {
		var list []string
		for _, x := range english.monthTicks(from, to, room, at) {
			list = append(list, x.Words)
		}
		return strings.Join(list, " ")
	}
	for _, c := range []struct {
		from, to measure.Date
		want     string
	}{
		{measure.NewDate(2026, 11, 5), measure.NewDate(2027, 2, 1), "Dec 2026 Jan 2027 Feb 2027"},
		{measure.NewDate(2026, 12, 31), measure.NewDate(2027, 1, 1), "Jan 2027"},
		{measure.NewDate(2026, 4, 1), measure.NewDate(2026, 4, 20), ""},
	} {
		if got := names(c.from, c.to, 8); got != c.want {
			t.Errorf("%s to %s: %q, want %q", c.from, c.to, got, c.want)
		}
	}
	if got := len(english.monthTicks(measure.NewDate(2016, 1, 1), measure.NewDate(2026, 1, 1), 8, at)); got > 9 {
		t.Errorf("%d marks for ten years", got)
	}
}

func TestDial(t *testing.T) {
	if english.makeDial(0, 0) != nil {
		t.Error("a dial of nothing")
	}
	if d := english.makeDial(0, 4); d.Arc != "" || d.Track == "" {
		t.Errorf("nothing done: %+v", d)
	}
	d := english.makeDial(4, 4)
	if d.Arc == "" || d.Track != "" || spaced(d.Words) != "4 of 4 snags cleared" {
		t.Errorf("all done: %+v", d)
	}
	if half := english.makeDial(2, 4); half.X != "100" || half.Y != "32" { // straight up
		t.Errorf("half done: the needle is at %s, %s", half.X, half.Y)
	}
}

package render

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/view"

	"github.com/shopspring/decimal"
)

// This file is the one place where a figure becomes words. Everything a page
// prints comes from here or from the notes.

// nbsp keeps a number and its unit on one line.
const nbsp = "\u00a0"

// day writes "11 April 2026", "" for none.
func day(d measure.Date) string {
	if d == 0 {
		return ""
	}
	return strings.Replace(d.Time().Format("2 January 2006"), " ", nbsp, 1)
}

// inYears tells whether short dates between two days need the year, for these lie in
// different ones.
func inYears(first, last measure.Date) bool { return first.Time().Year() != last.Time().Year() }

// shortDay writes "11 Apr", for where the year stands nearby, or "11 Apr 2026".
func shortDay(d measure.Date, withYear bool) string {
	switch {
	case d == 0:
		return ""
	case withYear:
		return d.Time().Format("2" + nbsp + "Jan" + nbsp + "2006")
	}
	return d.Time().Format("2" + nbsp + "Jan")
}

// month writes "April 2026".
func month(d measure.Date) string { return d.Time().Format("January 2006") }

// year writes "2026".
func year(d measure.Date) string { return d.Time().Format("2006") }

// monthID writes "2026-04", for anchors.
func monthID(d measure.Date) string { return d.String()[:len("2026-04")] }

// span writes "11 April – 20 July 2026", or one date where both are the same.
func span(from, to measure.Date) string {
	if from == to {
		return day(from)
	}
	begin := day(from)
	if from.Time().Year() == to.Time().Year() {
		begin = from.Time().Format("2" + nbsp + "January")
	}
	return begin + " – " + day(to)
}

// minutes writes "3 h 40 min": all of it wherever time stands, so that no two pages
// give one sum in two ways.
func minutes(m measure.Minutes) string {
	switch h, rest := int(m)/60, int(m)%60; {
	case h == 0:
		return strconv.Itoa(rest) + nbsp + "min"
	case rest == 0:
		return grouped(h) + nbsp + "h"
	default:
		return grouped(h) + nbsp + "h " + strconv.Itoa(rest) + nbsp + "min" // broken there where room is short
	}
}

// grouped writes "12,345".
func grouped(n int) string {
	s := strconv.Itoa(n)
	for at := len(s) - 3; at > 0; at -= 3 {
		s = s[:at] + "," + s[at:]
	}
	return s
}

// count writes "1 session", "25 sessions". The plural is that of one with an s
// unless it is given.
func count(n int, one string, many ...string) string {
	word := one
	if n != 1 {
		word = one + "s"
		if len(many) > 0 {
			word = many[0]
		}
	}
	return grouped(n) + nbsp + word
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// words joins "a", "a and b", "a, b and c".
func words(list ...string) string {
	switch n := len(list); n {
	case 0:
		return ""
	case 1:
		return list[0]
	default:
		return strings.Join(list[:n-1], ", ") + " and " + list[n-1]
	}
}

// sum writes money: "£1,250.00".
func (s *site) sum(d decimal.Decimal) string { return money.Show(d, s.v.Currency) }

// signed writes what a line adds, a credit with a true minus.
func (s *site) signed(l *view.MoneyLine) string { return minus(s.sum(l.Signed())) }

// minus sets the sign that is as wide as a figure.
func minus(figure string) string { return strings.Replace(figure, "-", "−", 1) }

// three writes best, likely and worst: "£260.00 · £340.00 · £520.00", or one sum
// where all are equal.
func (s *site) three(t fact.Three) string {
	if t[0].Equal(t[2]) {
		return s.sum(t[1])
	}
	return s.sum(t[0]) + " · " + s.sum(t[1]) + " · " + s.sum(t[2])
}

// round writes money for axes and headlines, without minor units: "£1,250".
func (s *site) round(d decimal.Decimal) string {
	return minus(money.Show(d, money.Currency{Code: s.v.Currency.Code}))
}

// chance writes a probability: "about 72 in 100", never more certain than it is.
func chance(p float64) string {
	switch n := int(p*100 + 0.5); {
	case p > 0 && n == 0:
		return "under 1 in 100"
	case p < 1 && n == 100:
		return "over 99 in 100"
	default:
		return fmt.Sprintf("%d in 100", n)
	}
}

// percent writes a fraction: "24 %".
func percent(f float64) string { return minus(fmt.Sprintf("%.0f%s%%", f*100, nbsp)) }

// number writes a coordinate of a drawing, rounded to what can be seen.
func number(f float64) string {
	s := strconv.FormatFloat(f, 'f', 2, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

// title makes the first letter a capital: "rear axle" becomes "Rear axle".
func title(s string) string {
	for i, r := range s {
		if i == 0 {
			return strings.ToUpper(string(r)) + s[len(string(r)):]
		}
	}
	return s
}

// said makes a name of the notes readable: "wheel-retorque" becomes "wheel retorque",
// "abs-ring" becomes "ABS ring".
func said(name string) string {
	words := strings.Split(name, "-")
	for i, w := range words {
		if acronyms[w] {
			words[i] = strings.ToUpper(w)
		}
	}
	return strings.Join(words, " ")
}

// acronyms of the trade, which ids have in small letters; only those that are no
// words as well. Common practice, no source.
var acronyms = func() map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields("abs acc adas bcm dpf dsc dtc ebs ecm ecu egr eps esp gps hvac maf mot nox obd pcm pcv scr srs tcm tpms usb vin") {
		set[w] = true
	}
	return set
}()

// shorten cuts words off so that about n characters are left.
func shorten(s string, n int) string {
	runes := []rune(s)
	if len(runes) <= n {
		return s
	}
	cut := string(runes[:n])
	if at := strings.LastIndexByte(cut, ' '); at > n/2 {
		cut = cut[:at]
	}
	return strings.TrimRight(cut, " ,;:.–-") + "…"
}

// distance groups the digits of an odometer: "91352 mi" becomes "91,352 mi".
func distance(s string) string {
	number, unit, _ := strings.Cut(s, " ")
	whole, decimals, point := strings.Cut(number, ".")
	n, err := strconv.Atoi(whole)
	if err != nil {
		return s
	}
	number = grouped(n)
	if point {
		number += "." + decimals
	}
	return number + nbsp + unit
}

// label is the name of a vehicle's detail.
func label(name string) string { return title(said(name)) }

// lastsYears tells whether what the view tells lies in more than one year.
func (s *site) lastsYears() bool {
	var days []measure.Date
	for _, x := range s.v.Sessions {
		days = append(days, x.Date)
	}
	for _, x := range s.v.Parts {
		for _, e := range x.Events {
			days = append(days, e.Date)
		}
	}
	if s.v.Money != nil {
		for _, l := range s.v.Money.Lines {
			days = append(days, l.Date)
		}
	}
	return len(days) > 0 && inYears(slices.Min(days), slices.Max(days))
}

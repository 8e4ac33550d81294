package main

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/net/html"

	"guidecoat/journal"
	"guidecoat/journal/check"
	"guidecoat/journal/export"
	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render"
	"guidecoat/themes"

	"github.com/shopspring/decimal"
)

// The words planted in fields by who never sees them, whatever the card's settings.
const (
	planted     = "qzsecretzq" // neither the public nor the buyer
	fromPublic  = "qzpapersqz" // not the public: who inspected
	fromVisitor = "qzhousezq"  // neither: the buyer's name, what is aimed at
)

// hostile are strings that have got through careless pages, from general knowledge
// of such lists, not copied from one.
var hostile = []string{
	`<script>x()</script>`, `"><script>x()</script>`, `'><x onload=y>`, `</title><x>`, `</script><x>`, `</style><x>`, `--><x>`, `]]><x>`,
	`<img src=x onerror=y>`, `<svg/onload=y>`, `<iframe src=javascript:x>`, `<i style=x>`, `<a href="javascript:x">`, `<base href=//x>`, `<form action=x>`,
	`javascript:x()`, ` javascript:x()`, `JaVaScRiPt:x()`, "java\tscript:x()", `java&#115;cript:x()`, `&#106;avascript&colon;x()`, `javascript&#x3a;x`, `vbscript:x`,
	`data:text/html,<x>`, `data:text/html;base64,PHg+`, `//example.org/x`, `\\example.org\x`, `file:///etc/passwd`, `../../../../etc/passwd`, `%2e%2e%2f`,
	`" onmouseover="x`, `' onfocus='x' autofocus='`, "` onload=x", `{{.}}`, `{{template "x"}}`, `${x}`, `<?php x ?>`, `<!--#exec cmd="x"-->`, `<![CDATA[<x>]]>`, `<!DOCTYPE x>`,
	`&lt;x&gt;`, `&amp;lt;x&gt;`, `&#60;x&#62;`, `&#x3c;x>`, `%3Cx%3E`, "\u2028<x>", "<\x00x>", "<x\x0bonload=y>", "\ufeff<x>", "\u202e<x>", "\xc0\xbcx>", `＜x＞`, `<x`, `<`, `&`, `"`, `'`, `</a></p></li></main>`,
}

// FuzzWhole does all that a run does, for whatever notes: it proofreads, reckons
// and makes the pages for every audience. Every problem prints; the lines add up to the
// stages, and those to the whole; what an audience may not see is on none of its pages;
// pages balance and have no markup of the notes' making.
func FuzzWhole(f *testing.F) {
	front := "---\nstage: axle\ncost:\n  - 138.00 beam; for rear-beam; from Tidewell\n  - 20.00 oil; share 1/3\ncredit:\n  - 3.00 y\n" +
		"parts:\n  rear-beam: fitted beam; used; system suspension\nchecks:\n  wheel-retorque: failed <b>\nreadings:\n  disc: 7 mm; min 8 mm\n---\n"
	f.Add("stages:\n  axle: beam; budget 1 2 3; system brakes\nresale: 1 2 3\npublic:\n  money: lines\n", front+"# Beam\n\n- [ ] temporary a-b: <script>x</script>; waits for rear-beam\n\n| a | b |\n|---|---|\n| [x](javascript:x) | `<i>` |\n\n```scan abs\nC0035 <x>\n```\n")
	f.Add("vehicle:\n  <i>: \" onload=\"x\n", "# <h1>\n\n<!-- a -->\n\n> - 1. <div onclick=x>\n\n![\"><x>](a.png \"<x>\") <https://example.org/\"><x>\n")
	f.Add("public:\n  money: nothing\n  snags: no\n", "---\ntitle: '&#60;x>'\n---\n[a <https:>](https://example.org/)\n\n    </code></pre><x>\n\n```html\n</pre><script>\n```\n")
	f.Add("public:\n  : noth", "---\ntitle: private\n\n- [ ] not public <!-- a\n") // front matter that never ends
	for _, h := range hostile {
		f.Add("vehicle:\n  make: "+h+"\nstages:\n  axle: "+h+"\npublic:\n  money: lines\n  suppliers: yes\n  hours: yes\n",
			strings.NewReplacer("beam;", h+";", "Tidewell", h).Replace(front)+"# "+h+"\n\n"+h+" ["+h+"]("+h+") ![a]("+h+") [a][r]\n\n[r]: "+h+"\n\n- [ ] job a-b: "+h+"\n- "+h+"\n\n> "+h+"\n\n|"+h+"|\n|-|\n|"+h+"|\n")
	}
	theme, err := themes.Load(themes.Default, nil)
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, card, note string) {
		if strings.Contains(card+note, "qz") {
			t.Skip()
		}
		sold := ""
		if len(note)%2 == 1 { // a sale ends the forecast, so not in all
			sold = "sold: 5150; to " + fromVisitor + "\n"
		}
		fsys := fstest.MapFS{
			"build.md":      {Data: []byte("---\nbuild: Halden\ncurrency: GBP\n" + card + "---\n")},
			"2026-04-11.md": {Data: []byte(note)},
			"2026-04-12.md": {Data: []byte("---\nprivate: yes\ntitle: " + planted + "\n---\n" + planted + "\n\n- [ ] " + planted + "\n")},
			"2026-04-13.md": {Data: []byte("---\nodometer: 91000 mi\n" + sold + "cost:\n  - 1.00 " + planted + "; private\nchecks:\n  c-d: done; by " + fromPublic + "\nremaining:\n  axle: 1 2 3 " + fromVisitor + "\n---\n<!-- " + planted + " -->\n- [ ] job " + planted + "; private\n")},
		}
		b, err := journal.ReadBuild(fsys, ".")
		if err != nil {
			t.Fatal(err)
		}
		st := state.At(b, 0, measure.FromTime(theDay()))
		found := check.Run(st, problem.Information)
		var printed bytes.Buffer
		if err := (problem.Text{}).Write(&printed, found); err != nil || bytes.Count(printed.Bytes(), []byte("\n")) < len(found) {
			t.Errorf("%d problems print as %q (%v)", len(found), printed.String(), err)
		}
		checkSums(t, st)
		other := view.ForBuyer
		if len(card)%2 == 1 { // one of both, as pages take most of the time
			other = view.ForWorkshop
		}
		for _, to := range []view.Audience{view.ForPublic, other} {
			files, err := render.Site(view.Of(st, to), render.Options{Theme: theme, Version: "test", Read: fsys.ReadFile})
			if err != nil {
				continue // a file that cannot be published is refused
			}
			for file, err := range files {
				if err != nil {
					break
				}
				for word, hidden := range map[string]bool{planted: to != view.ForWorkshop, fromPublic: to == view.ForPublic, fromVisitor: to != view.ForWorkshop} {
					if i := bytes.Index(file.Data, []byte(word)); i >= 0 && hidden {
						t.Errorf("%s for %v tells %s: %.200s", file.Path, to, word, file.Data[max(0, i-100):])
					}
				}
				if strings.HasSuffix(file.Path, ".html") {
					checkBalance(t, file.Path, file.Data)
				}
			}
		}
	})
}

// checkSums adds up the lines that are exported, and holds the figures to them.
func checkSums(t *testing.T, st *state.State) {
	v := view.Of(st, view.ForWorkshop)
	costs := v.Money.Costs
	var out bytes.Buffer
	if err := export.WriteCSV(&out, v); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatalf("the lines are no CSV: %v", err)
	}
	sums := map[string]decimal.Decimal{}
	for _, row := range rows[1:] {
		stage, category, kind, amount := row[3], row[4], row[5], decimal.RequireFromString(row[9])
		if len(stage) > 1 && stage[0] == '\'' && strings.ContainsRune("=+-@", rune(stage[1])) {
			stage = stage[1:] // made text for spreadsheets
		}
		for _, sum := range []string{kind, kind + " of the stage " + stage, kind + " for " + category} {
			sums[sum] = sums[sum].Add(amount)
		}
	}
	want := map[string]decimal.Decimal{"cost": costs.Spent, "credit": costs.Credits}
	net := decimal.Zero
	for _, s := range costs.Stages {
		want["cost of the stage "+s.Name], want["credit of the stage "+s.Name] = s.Spent, s.Credits
		net = net.Add(s.Net)
	}
	for _, c := range costs.Categories {
		want["cost for "+c.Name] = c.Sum
	}
	for what, figure := range want {
		if !sums[what].Equal(figure) {
			t.Errorf("%s is %s, its lines come to %s", what, figure, sums[what])
		}
	}
	if !net.Equal(costs.Net) || !costs.Net.Equal(costs.Spent.Sub(costs.Credits)) {
		t.Errorf("the stages are %s, the whole is %s: %s less %s", net, costs.Net, costs.Spent, costs.Credits)
	}
}

// void are the elements of HTML without an end, from the HTML standard, 13.1.2.
var void = []string{"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}

// checkBalance holds a page to end tags in order and to no markup that runs.
func checkBalance(t *testing.T, name string, data []byte) {
	var open []string
	for z := html.NewTokenizer(bytes.NewReader(data)); ; {
		kind := z.Next()
		token := z.Token()
		switch kind {
		case html.ErrorToken:
			if len(open) > 0 {
				t.Errorf("%s: never closed: %q", name, open)
			}
			return
		case html.StartTagToken:
			if token.Data == "a" && slices.Contains(open, "a") {
				t.Errorf("%s: a link in a link", name)
			}
			if !slices.Contains(void, token.Data) {
				open = append(open, token.Data)
			}
		case html.EndTagToken:
			if len(open) == 0 || open[len(open)-1] != token.Data {
				t.Fatalf("%s: </%s> closes %q", name, token.Data, open)
			}
			open = open[:len(open)-1]
		case html.CommentToken:
			t.Errorf("%s: a comment", name)
		}
		for _, a := range token.Attr {
			address := strings.ToLower(strings.TrimSpace(a.Val))
			if strings.HasPrefix(a.Key, "on") || a.Key == "style" || strings.HasPrefix(address, "javascript:") && (a.Key == "href" || a.Key == "src") {
				t.Errorf("%s: <%s %s=%q>", name, token.Data, a.Key, a.Val)
			}
		}
		if token.Data == "script" && kind == html.StartTagToken && !slices.Contains(token.Attr, html.Attribute{Key: "type", Val: "application/ld+json"}) ||
			slices.Contains([]string{"x", "i", "iframe", "object", "form", "base"}, token.Data) && kind == html.StartTagToken {
			t.Errorf("%s: <%s>", name, token.Data)
		}
	}
}

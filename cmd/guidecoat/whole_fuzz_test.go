package main

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/net/html"

	"guidecoat/journal"
	"guidecoat/journal/check"
	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
	"guidecoat/render"
	"guidecoat/themes"

	"github.com/shopspring/decimal"
)

// planted stands in lines and notes that the public never sees.
const planted = "qzsecretzq"

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
// and makes the public pages. Every problem prints; stages add up to the whole; what is
// private is on no page; pages balance and have no markup of the notes' making.
func FuzzWhole(f *testing.F) {
	front := "---\nstage: axle\ncost:\n  - 138.00 beam; for rear-beam; from Tidewell\n  - 20.00 x; share 1/3; stage other\ncredit:\n  - 3.00 y\n" +
		"parts:\n  rear-beam: fitted beam; used; system suspension\nchecks:\n  wheel-retorque: failed <b>\nreadings:\n  disc: 7 mm; min 8 mm\n---\n"
	f.Add("stages:\n  axle: beam; budget 1 2 3; system brakes\nresale: 1 2 3\npublic:\n  money: lines\n", front+"# Beam\n\n- [ ] temporary a-b: <script>x</script>; waits for rear-beam\n\n| a | b |\n|---|---|\n| [x](javascript:x) | `<i>` |\n\n```scan abs\nC0035 <x>\n```\n")
	f.Add("vehicle:\n  <i>: \" onload=\"x\n", "# <h1>\n\n<!-- a -->\n\n> - 1. <div onclick=x>\n\n![\"><x>](a.png \"<x>\") <https://example.org/\"><x>\n")
	f.Add("public:\n  money: nothing\n  snags: no\n", "---\ntitle: '&#60;x>'\n---\n[a <https:>](https://example.org/)\n\n    </code></pre><x>\n\n```html\n</pre><script>\n```\n")
	for _, h := range hostile {
		f.Add("vehicle:\n  make: "+h+"\nstages:\n  axle: "+h+"\npublic:\n  money: lines\n  suppliers: yes\n  hours: yes\n",
			strings.NewReplacer("beam;", h+";", "Tidewell", h).Replace(front)+"# "+h+"\n\n"+h+" ["+h+"]("+h+") ![a]("+h+") [a][r]\n\n[r]: "+h+"\n\n- [ ] job a-b: "+h+"\n- "+h+"\n\n> "+h+"\n\n|"+h+"|\n|-|\n|"+h+"|\n")
	}
	theme, err := themes.Load(themes.Default)
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, card, note string) {
		if strings.Contains(card+note, planted) || strings.Contains(note, "private") {
			t.Skip()
		}
		fsys := fstest.MapFS{
			"build.md":      {Data: []byte("---\nbuild: Halden\ncurrency: GBP\n" + card + "---\n")},
			"2026-04-11.md": {Data: []byte(note)},
			"2026-04-12.md": {Data: []byte("---\nprivate: yes\ntitle: " + planted + "\n---\n" + planted + "\n\n- [ ] " + planted + "\n")},
			"2026-04-13.md": {Data: []byte("---\ncost:\n  - 1.00 " + planted + "; private\n---\n<!-- " + planted + " -->\n- [ ] job " + planted + "; private\n")},
		}
		b, err := journal.ReadBuild(fsys, ".")
		if err != nil {
			t.Fatal(err)
		}
		st := b.At(0, measure.FromTime(theDay()))
		found := check.Run(st, problem.Information)
		var printed bytes.Buffer
		if err := (problem.Text{}).Write(&printed, found); err != nil || bytes.Count(printed.Bytes(), []byte("\n")) < len(found) {
			t.Errorf("%d problems print as %q (%v)", len(found), printed.String(), err)
		}
		costs, sum := st.Costs(), decimal.Zero
		for _, stage := range costs.Stages {
			sum = sum.Add(stage.Net)
		}
		if !sum.Equal(costs.Net) || !costs.Net.Equal(costs.Spent.Sub(costs.Credits)) {
			t.Errorf("the stages are %s, the whole is %s: %s less %s", sum, costs.Net, costs.Spent, costs.Credits)
		}
		files, err := render.Site(st.View(journal.ForPublic), render.Options{Theme: theme, Version: "test", Read: fsys.ReadFile})
		if err != nil {
			return // a file that cannot be published is refused
		}
		for file, err := range files {
			if err != nil {
				return
			}
			if i := bytes.Index(file.Data, []byte(planted)); i >= 0 {
				t.Errorf("%s tells what is private: %.200s", file.Path, file.Data[max(0, i-100):])
			}
			if strings.HasSuffix(file.Path, ".html") {
				checkBalance(t, file.Path, file.Data)
			}
		}
	})
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

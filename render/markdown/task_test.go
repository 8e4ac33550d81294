package markdown

import (
	"strings"
	"testing"

	"guidecoat/journal/view"
	"guidecoat/render/tongue"
)

// item is what stands in front of an item's words.
const (
	openMark    = `<span class="mark" role="img" aria-label="open">☐</span> `
	clearedMark = `<span class="mark" role="img" aria-label="cleared">☑</span> `
	minorJob    = `<span class="badge severity minor">minor</span> `
	majorTemp   = `<span class="badge kind temporary">temporary</span> <span class="badge severity major">major</span> `
)

func TestSnags(t *testing.T) {
	for _, c := range []struct {
		name, in string
		to       view.Audience
		want     string
	}{
		{"an item without an id", "- [ ] clean *up*", view.ForPublic,
			`<ul class="tasks"> <li class="snag open minor"><p class="snag-line">` + openMark + minorJob + `<span class="words">clean <em>up</em></span></p> </li> </ul>`},
		{"all its clauses", "- [ ] temporary tow-socket: wired; dangerous; due 2026-04-20; waits for earth-strap; waits for no-entry; takes 1h30; system brakes\n- [ ] earth-strap: x\n- [ ] no-entry: y", view.ForPublic,
			`<ul class="tasks"> <li class="snag open dangerous"><p class="snag-line">` + openMark +
				`<span class="badge kind temporary">temporary</span> <span class="badge severity dangerous">dangerous</span> <a class="snag-id" href="snags.html#tow-socket">tow-socket</a> ` +
				`<span class="words">wired</span> <span class="tag due overdue">due <time datetime="2026-04-20">20 April 2026</time></span> ` +
				`<span class="tag waits">waits for <a href="snags.html#earth-strap">earth-strap</a></span> <span class="tag waits">waits for <span>no-entry</span></span> ` +
				`<span class="tag takes">takes 1 h 30 min</span> <span class="tag system safety">brakes</span></p> </li> ` +
				`<li class="snag open minor"><p class="snag-line">` + openMark + minorJob + `<a class="snag-id" href="snags.html#earth-strap">earth-strap</a> <span class="words">x</span></p> </li> ` +
				`<li class="snag open minor"><p class="snag-line">` + openMark + minorJob + `<span class="snag-id">no-entry</span> <span class="words">y</span></p> </li> </ul>`},
		{"a distance, and something to disclose", "- [ ] worn seat; disclose; due 500 mi", view.ForPublic,
			`<ul class="tasks"> <li class="snag open minor"><p class="snag-line">` + openMark + minorJob + `<span class="words">worn seat</span> ` +
				`<span class="tag due">due at 91752 mi</span> <span class="tag disclose">told to the buyer</span></p> </li> </ul>`},
		{"cleared, remarked, opened again", "- [x] job tow-socket: done\n- [ ] again tow-socket: no\n- [ ] tow-socket: *still*\n- [x] tow-socket: yes", view.ForPublic,
			`<ul class="tasks"> <li class="snag cleared minor"><p class="snag-line">` + clearedMark + minorJob + `<a class="snag-id" href="snags.html#tow-socket">tow-socket</a> <span class="words">done</span></p> </li> ` +
				`<li class="snag reopened minor"><p class="snag-line"><span class="mark" role="img" aria-label="opened again">↻</span> ` + minorJob + `<a class="snag-id" href="snags.html#tow-socket">tow-socket</a> <span class="words">no</span></p> </li> ` +
				`<li class="snag remarked minor"><p class="snag-line"><span class="mark" role="img" aria-label="remark">✎</span> ` + minorJob + `<a class="snag-id" href="snags.html#tow-socket">tow-socket</a> <span class="words"><em>still</em></span></p> </li> ` +
				`<li class="snag cleared minor"><p class="snag-line">` + clearedMark + minorJob + `<a class="snag-id" href="snags.html#tow-socket">tow-socket</a> <span class="words">yes</span></p> </li> </ul>`},
		{"cleared without a word", "- [ ] temporary tow-socket: wired\n- [x] tow-socket", view.ForPublic,
			`<ul class="tasks"> <li class="snag open major"><p class="snag-line">` + openMark + majorTemp + `<a class="snag-id" href="snags.html#tow-socket">tow-socket</a> <span class="words">wired</span></p> </li> ` +
				`<li class="snag cleared major"><p class="snag-line">` + clearedMark + majorTemp + `<a class="snag-id" href="snags.html#tow-socket">tow-socket</a> <span class="words">wired</span></p> </li> </ul>`},
		{"what an item holds is kept", "- [ ] a\n  - b\n\n  c [d][e]\n- [ ] f [g][e]\n\n[e]: h.md", view.ForPublic,
			`<ul class="tasks"> <li class="snag open minor"><p class="snag-line">` + openMark + minorJob + `<span class="words">a</span></p> <ul> <li>b</li> </ul> <p>c <a href="to/h.md">d</a></p> </li> ` +
				`<li class="snag open minor"><p class="snag-line">` + openMark + minorJob + `<span class="words">f <a href="to/h.md">g</a></span></p> </li> </ul>`},
		{"an item of several lines, in a heading", "1. [ ] a\n   b; takes 1h\n2. # [ ] c", view.ForPublic,
			`<ol class="tasks"> <li class="snag open minor"><p class="snag-line">` + openMark + minorJob + `<span class="words">a b</span> <span class="tag takes">takes 1 h</span></p> </li> ` +
				`<li class="snag open minor"><p class="snag-line">` + openMark + minorJob + `<span class="words">c</span></p> </li> </ol>`},

		// What is not for this page leaves nothing behind.
		{"a private item", "a\n\n- [ ] SECRET; private\n  - SECRET\n\n  # SECRET\n\nb", view.ForPublic, "<p>a</p> <p>b</p>"},
		{"one of two", "- [ ] SECRET; private\n- b", view.ForPublic, `<ul class="tasks"> <li>b</li> </ul>`},
		{"in a list in a quote", "> - a\n>   - [ ] SECRET; private\n\n> > - [ ] SECRET; private\n", view.ForPublic, `<blockquote> <ul> <li>a </li> </ul> </blockquote>`},
		{"the workshop sees it", "- [ ] a; private", view.ForWorkshop,
			`<ul class="tasks"> <li class="snag open minor"><p class="snag-line">` + openMark + minorJob + `<span class="words">a</span> <span class="tag private">private</span></p> </li> </ul>`},
		{"a line in error is not for the public", "- [ ] a; SECRET b", view.ForPublic, ""},
		{"the workshop sees it as it was typed", "- [ ] a; *b* c", view.ForWorkshop,
			`<ul class="tasks"> <li class="snag open not-understood"><p class="snag-line">` + openMark + `a; <em>b</em> c</p> </li> </ul>`},
		{"a comment in an item", "- [ ] a <!-- SECRET; private --> b", view.ForPublic,
			`<ul class="tasks"> <li class="snag open minor"><p class="snag-line">` + openMark + minorJob + `<span class="words">a  b</span></p> </li> </ul>`},
		{"a comment that leaves an item", "- [ ] a <!-- SECRET\n\n  SECRET --> b", view.ForPublic,
			`<ul class="tasks"> <li class="snag open minor"><p class="snag-line">` + openMark + minorJob + `<span class="words">a  b</span></p> </li> </ul>`},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := viewOf(t, c.to, "---\nodometer: 91252 mi\n---\n"+c.in)
			got, err := New().Body(v.Sessions[0].Body, pictures)
			if err != nil {
				t.Fatal(err)
			}
			checkHTML(t, got.String())
			parsed(t, got.String())
			if collapse(got.String()) != c.want {
				t.Errorf("%q is\n%s\nwant\n%s", c.in, collapse(got.String()), c.want)
			}
			if c.to == view.ForPublic && strings.Contains(got.String(), "SECRET") {
				t.Error("a secret is told")
			}
		})
	}
}

func TestDates(t *testing.T) {
	v := viewOf(t, view.ForPublic, "- [ ] a; due 2026-06-01")
	out, _ := New().Body(v.Sessions[0].Body, Links{Tongue: tongue.Of("de", nil)})
	if want := "<time datetime=\"2026-06-01\">1.\u00a0Juni 2026</time>"; !strings.Contains(out.String(), want) {
		t.Errorf("no %s in %s", want, out)
	}
}

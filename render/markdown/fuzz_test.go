package markdown

import (
	"strings"
	"testing"

	"guidecoat/journal/view"
)

// FuzzBody holds that whatever a note says, the page is one that a browser reads as
// it was written, of known elements, attributes and addresses only.
func FuzzBody(f *testing.F) {
	for _, c := range bodyCases {
		f.Add(c.in)
	}
	for _, e := range commonMark(f) {
		f.Add(e.Markdown)
	}
	f.Add("- [ ] temporary a-b: c *d*; due 2026-04-20; waits for e-f; takes 1h\n  - [x] a-b\n\n  g\n- [ ] h; private\n")
	f.Fuzz(func(t *testing.T, text string) {
		out := rendered(t, text, pictures)
		checkHTML(t, out)
		parsed(t, out)
		for _, to := range []view.Audience{view.ForPublic, view.ForWorkshop} {
			for _, s := range viewOf(t, to, text).Sessions {
				body, err := New().Body(s.Body, pictures)
				if err != nil {
					t.Fatal(err)
				}
				checkHTML(t, body.String())
				parsed(t, body.String())
			}
		}
	})
}

// FuzzInline holds the same of the words of a line, which may stand in a paragraph.
func FuzzInline(f *testing.F) {
	for _, c := range bodyCases {
		f.Add(c.in)
	}
	f.Fuzz(func(t *testing.T, text string) {
		out := "<p>" + New().InlineWith(text, pictures).String() + "</p>"
		checkHTML(t, out)
		parsed(t, out)
		for _, block := range []string{"<p>", "<ul", "<pre", "<img", "<div", "<table"} {
			if strings.Contains(out[3:], block) {
				t.Errorf("%q has %s", text, block)
			}
		}
		Plain(text)
	})
}

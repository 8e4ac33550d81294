package check

import (
	"fmt"
	"strings"

	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"
)

var tickWithoutID = &Check{
	Name:     "tick-without-id",
	Severity: problem.Warning,
	Summary:  "a ticked item in plain words that names an open snag, and does not clear it",
	Explain: "An item clears a snag by its id and a colon at the very beginning. " +
		"Without them it is plain words, and the snag stays open; one without an id is ticked where it stands.",
	Bad:  "---\nstage: body\n---\n- [ ] temporary bonnet-strap: tied down\n- [x] bonnet-strap latch fitted\n",
	Good: "---\nstage: body\n---\n- [ ] temporary bonnet-strap: tied down\n- [x] bonnet-strap: latch fitted\n",
	Run: func(p *Pass) {
		open := map[string]bool{}
		for _, s := range p.State.Snags {
			if s.Open && s.ID != "" {
				open[s.ID] = true
			}
		}
		plain := p.openInWords()
		if len(open)+len(plain) == 0 {
			return
		}
		for _, s := range p.State.Build.Sessions {
			for _, it := range s.Note.Items {
				if !it.Ticked || it.Bad || it.ID != "" {
					continue
				}
				if snag := plain[foldedWords(it.Words().S)]; snag != nil && snag.Opened <= s.Date && snag.Span.File != s.Note.File {
					where := fmt.Sprintf("%s:%d", snag.Span.File.Path, snag.Line())
					p.Report(it.HeadSpan(), "this clears nothing: the same words stay open at "+where, "Tick it where it stands, "+where+".")
				} else if id := idInWords(it.Text.S, open); id != "" {
					p.Report(it.HeadSpan(), "this clears nothing: "+quote(id)+" stays open", "Write \"- [x] "+id+": \" and what was done.")
				}
			}
		}
	},
}

// openInWords are the open snags without an id, by their words.
func (p *Pass) openInWords() map[string]*state.Snag {
	plain := map[string]*state.Snag{}
	for _, s := range p.State.Snags {
		if key := foldedWords(s.Words); s.Open && s.ID == "" && key != "" && plain[key] == nil {
			plain[key] = s
		}
	}
	return plain
}

// foldedWords is what of plain words tells them from others.
func foldedWords(s string) string { return near.Folded(note.PlainWords(s)) }

// longestID is how many words at the beginning are looked at.
const longestID = 5

// idInWords finds an id among the first words of a text, or in pieces at its very beginning.
func idInWords(text string, ids map[string]bool) string {
	text = strings.NewReplacer("–", "-", "—", "-", "‑", "-").Replace(strings.ToLower(text))
	words := strings.FieldsFunc(text, func(r rune) bool { return !isIDRune(r) })
	joined := ""
	for i, w := range words[:min(len(words), longestID)] {
		if w = strings.Trim(w, "-"); ids[w] {
			return w
		}
		if joined += "-" + w; i > 0 && ids[joined[1:]] {
			return joined[1:]
		}
	}
	return ""
}

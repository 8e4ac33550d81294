package check

import (
	"strings"

	"guidecoat/journal/problem"
)

var tickWithoutID = &Check{
	Name:     "tick-without-id",
	Severity: problem.Warning,
	Summary:  "a ticked item in plain words that names an open snag, and does not clear it",
	Explain: "An item clears a snag by its id and a colon at the very beginning. " +
		"Without them it is plain words, and the snag stays open.",
	Bad:  "---\nstage: body\n---\n- [ ] temporary bonnet-strap: tied down\n- [x] bonnet-strap latch fitted\n",
	Good: "---\nstage: body\n---\n- [ ] temporary bonnet-strap: tied down\n- [x] bonnet-strap: latch fitted\n",
	Run: func(p *Pass) {
		open := map[string]bool{}
		for _, s := range p.State.Snags {
			if s.Open && s.ID != "" {
				open[s.ID] = true
			}
		}
		if len(open) == 0 {
			return
		}
		for _, s := range p.State.Build.Sessions {
			for _, it := range s.Note.Items {
				if !it.Ticked || it.Bad || it.ID != "" {
					continue
				}
				if id := idInWords(it.Text.S, open); id != "" {
					p.Report(it.HeadSpan(), "this clears nothing: "+quote(id)+" stays open", "Write \"- [x] "+id+": \" and what was done.")
				}
			}
		}
	},
}

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

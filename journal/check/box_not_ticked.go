package check

import (
	"slices"
	"strings"

	"guidecoat/journal/problem"
)

var boxNotTicked = &Check{
	Name:     "box-not-ticked",
	Severity: problem.Warning,
	Summary:  "an item about a snag that says done, without a tick",
	Explain: "Only a tick in its box clears a snag. " +
		"Without one the words are a remark, and the snag stays open.",
	Bad:  "---\nstage: body\n---\n- [ ] temporary bonnet-strap: tied down\n- [ ] bonnet-strap: done, latch fitted\n",
	Good: "---\nstage: body\n---\n- [ ] temporary bonnet-strap: tied down\n- [x] bonnet-strap: done, latch fitted\n",
	Run: func(p *Pass) {
		for _, snag := range p.State.Snags {
			if !snag.Open {
				continue
			}
			for _, e := range snag.Events {
				if e.Item != nil && e.Item.Kind == "" && !e.Item.Ticked && !e.Item.Again && saysDone(e.Words) {
					p.Report(e.Span, quote(snag.ID)+" stays open, for its box is not ticked", "Write \"- [x]\" if it is done.")
				}
			}
		}
	},
}

// saysDone tells whether words are, or begin with, one that says that it is over.
func saysDone(words string) bool {
	first, rest, _ := strings.Cut(words, " ")
	word := strings.TrimRight(first, ".,;!")
	over := []string{"done", "finished", "fixed", "mended", "sorted", "cleared"}
	return (rest == "" || word != first) && slices.Contains(over, strings.ToLower(word))
}

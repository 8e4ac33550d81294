package check

import (
	"cmp"
	"fmt"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var unsafeWhenSold = &Check{
	Name:     "unsafe-when-sold",
	Severity: problem.Warning,
	Summary:  "a vehicle that was sold with something dangerous open, or a check due on a safety system",
	Explain: "Whoever bought it drives with what these notes leave open. Write down what was done, in the note of its day. " +
		"If it was sold so, and the buyer was told, write `; sure` behind the price.",
	Example: `---
stage: rear axle
---
- [ ] job brake-pipe: rusted through; dangerous
right|- [x] brake-pipe: new pipe in, bled and tried
-- 2026-05-01.md --
---
sold: 5150.00
---
`,
	Run: func(p *Pass) {
		sale := p.State.Sale
		if sale == nil {
			return
		}
		var open []string
		doubt := p.doubtful()
		for _, s := range p.State.Snags {
			unsafe := s.Severity == note.Dangerous || s.FromWork() && note.IsSafety(s.System)
			if s.Open && unsafe && s.Opened <= sale.Date && !doubt[s.ID] {
				open = append(open, quote(cmp.Or(s.ID, s.PlainWords())))
			}
		}
		if len(open) == 0 {
			return
		}
		const most = 3
		more := ""
		if len(open) > most {
			more = fmt.Sprintf(" and %d more", len(open)-most)
		}
		p.Report(sale.Line.HeadSpan(), "the vehicle is sold with "+strings.Join(open[:min(len(open), most)], ", ")+more+" open",
			"Write what was done about it, or \"; sure\" behind the price if the buyer was told.")
	},
}

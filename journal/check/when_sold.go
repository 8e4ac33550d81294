package check

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

// What a buyer would want to know before the sale.

var looseWhenSold = &Check{
	Name: "loose-when-sold", Severity: problem.Warning,
	Summary: "a part that was paid for and is not on the vehicle that was sold",
	Explain: "The vehicle is sold, and a part bought for it is still somewhere else. " +
		"Say what became of it: fitted, returned, or sold by itself.",
	Example: `---
stage: body
parts:
wrong|  door-left: arrived left door; new
right|  door-left: fitted left door; new
cost: 138.00 left door; for door-left
sold: 5150.00
---
`,
	Run: func(p *Pass) {
		if p.State.Sale == nil {
			return
		}
		for _, part := range p.State.Parts {
			ended := !part.Waited() && !part.InHand()
			if !part.Fitted() && !ended && part.Paid.IsPositive() && !p.doubt()[part.ID] {
				p.Report(part.Span(), quote(part.ID)+" was paid for and is only "+part.State+", but the vehicle is sold",
					"Write what became of it, such as \"fitted\", \"returned\" or \"sold\".")
			}
		}
	},
}

var unsafeWhenSold = &Check{
	Name: "unsafe-when-sold", Severity: problem.Warning,
	Summary: "a vehicle that was sold with something dangerous open, or a check due on a safety system",
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
		for _, s := range p.State.Snags {
			unsafe := s.Severity == note.Dangerous || s.FromWork() && note.IsSafety(s.System)
			if s.Open && unsafe && s.Opened <= sale.Date && !p.doubt()[s.ID] {
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

// usedInWords matches words that begin by saying that the part is used.
var usedInWords = regexp.MustCompile(`(?i)^(?:used|second-?hand)\b`)

var usedSafetyPart = &Check{
	Name: "used-safety-part", Severity: problem.Warning,
	Summary: "a used part in steering, suspension, brakes or restraints",
	Explain: "Common practice is not to fit used parts here: bushes and joints wear where nobody sees it, and belts and airbags work once. " +
		"Some countries forbid it for some parts; follow local rules and the maker's data, and have it looked at by somebody licensed.",
	Example: "---\nstage: body\nparts:\nwrong|  rack: needed steering rack; used; system steering\nright|  rack: needed steering rack; reconditioned; system steering\n---\n",
	Run: func(p *Pass) {
		wearing := []string{"steering", "suspension", "brakes", "restraints"}
		for _, part := range p.State.Parts {
			ended := !part.Waited() && !part.InHand()
			at := slices.IndexFunc(part.Systems, func(s string) bool { return slices.Contains(wearing, s) })
			if ended || at < 0 {
				continue
			}
			system := part.Systems[at]
			var where source.Span
			for _, l := range part.Lines {
				words := l.Line.Words()
				if c := l.Line.Choice("condition"); c != nil {
					where = c.Span
				} else if word := usedInWords.FindString(words.S); word != "" && part.Condition == "" {
					where = words.Span(0, len(word))
				}
			}
			if where.File == nil || part.Condition != "used" && part.Condition != "" {
				continue
			}
			p.Report(where, "a used part, "+quote(part.ID)+", in the system "+quote(system),
				pick.Either(system == "restraints", "A belt or airbag works once, and nobody sees what it has been through: fit a new one.",
					"Bushes and joints wear: have it looked at by somebody licensed, or fit a new one."))
		}
	},
}

var disclosedUnseen = &Check{
	Name: "disclosed-unseen", Severity: problem.Warning,
	Summary: "a snag that is to be told to the buyer, but is private",
	Explain: "`disclose` leaves a snag for the buyer, who must be told of it. " +
		"What is private, or stands in a private note, is shown in the workshop copy only.",
	Example: "---\nstage: body\nwrong|private: yes\n---\n- [ ] job door-scratch: scratch under the handle; disclose\n",
	Run: func(p *Pass) {
		for _, s := range p.State.Snags {
			if !s.Open || !s.Disclose || !s.Private {
				continue
			}
			at, message := s.Span, "the buyer is not told of this, since its note is private"
			for _, e := range s.Events {
				if e.Item == nil {
					continue
				}
				if c := e.Item.Clause("disclose"); c != nil {
					at = c.Span
				}
				if e.Item.Has("private") {
					message = "the buyer is not told of this, since it is private"
				}
			}
			p.Report(at, message, "Leave out \"private\", or write the item in a note that is not.")
		}
	},
}

package check

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var ofParts = []*Check{
	{
		Name: journal.NoUntil, Severity: problem.Error,
		Summary: "a paper that does not say until when it holds",
		Explain: "What never runs out needs no watching. Whatever does, such as insurance, tax or a permit, says `until` and its last day.",
		Example: "---\npapers:\nwrong|  insurance: laid up only; road no\nright|  insurance: laid up only; until 2026-07-16; road no\n---\n",
		Message: "{word} does not say until when it holds",
		Help:    "Write \"until\" and its last day.",
	},
	{
		Name: journal.UnknownDonor, Severity: problem.Error,
		Summary: "a part that is worth something of a donor that nobody tells of",
		Explain: "A part of a donor bears a share of its price. The donor stands below `donors` on the job card or in garage.md, with its price. " +
			"Without `worth`, `donor` may hold any words for a vehicle that no account is kept of.",
		Example: `right|-- build.md --
---
right|build: Example estate
right|currency: GBP
right|donors:
right|  lark-17: 580.00 hatchback hit in the rear; on 2026-02-01
right|---
right|-- 2026-04-11.md --
right|---
stage: body
parts:
  door-left: arrived left door; used; donor lark-17; worth 120
---
`,
		Say: func(f source.Fault) (string, string) {
			if f.Word == "" {
				return "the part is worth something, but comes from no donor", "Write \"donor\" and its name, or leave \"worth\" out."
			}
			return "no donor called " + quote(f.Word), Nearest(f.Word, f.Near, "Write it below \"donors\" on the job card, with its price.")
		},
	},
	{
		Name: journal.NoWorth, Severity: problem.Error,
		Summary: "a part taken from a donor without saying what it is worth",
		Explain: "The price of a donor is spread over the parts that are taken from it by what each is worth. " +
			"Without its worth the part would cost nothing, and the others too much.",
		Example: besideCard("---\nstage: body\nparts:\nwrong|  door-left: arrived left door; used; donor lark-17\n"+
			"right|  door-left: arrived left door; used; donor lark-17; worth 120\n---\n", "donors:\n  lark-17: 580.00 hatchback hit in the rear\n"),
		Message: "the part comes from {word} and does not say what it is worth",
		Help:    "Write \"worth\" and what such a part would cost used.",
	},
	{
		Name: journal.DonorRefused, Severity: problem.Error,
		Summary: "a part from a donor whose salvage category does not allow for it",
		Explain: "A vehicle of category A is to be crushed whole. Of one of category B parts may be used again, but not its shell, and no airbag or seat belt " +
			"(ABI Code of Practice for the Categorisation of Motor Vehicle Salvage).",
		Example: besideCard("---\nstage: body\nparts:\nwrong|  belt-left: arrived left belt; new; system restraints; donor lark-17; worth 20\n"+
			"right|  door-left: arrived left door; used; donor lark-17; worth 120\n---\n", "donors:\n  lark-17: 580.00 hatchback hit in the rear; category B\n"),
		Message: "{why} may come from {word}, by its salvage category",
		Help:    "Get the part elsewhere, or mend the category of the donor.",
	},
	{
		Name: journal.UndescribedPart, Severity: problem.Error,
		Summary: "a part whose first line does not say what it is",
		Explain: "The first line that names a part describes it for every list and page. " +
			"That also catches an id that was meant to be another one. Lines about the part count again once it is described.",
		Example: "---\nstage: rear axle\nparts:\nwrong|  rear-beam: ordered\nright|  rear-beam: ordered rear axle beam\n---\n",
		Message: "the first line of {word} does not describe it",
		Help:    "{nearest}Write what it is behind the state, such as \"needed reluctor ring, left rear\".",
	},
	{
		Name: journal.NearPart, Severity: problem.Warning,
		Summary: "a new part whose id is a letter or two from a known one",
		Explain: "The first line that names an id declares a part, so a slip in the id opens a second one. " +
			"What was paid for the first then stays with it, and the first never gets further.",
		Example: `---
stage: body
parts:
  - radiator: needed new radiator
wrong|  - raditor: ordered radiator, from the coast
right|  - radiator: ordered from the coast
---
`,
		Message: "the part {word} is new, and close to {near}",
		Help:    "Nearest: {near}. Tell the two apart by more than a letter if they are not one part.",
	},
	{
		Name: journal.PartBackwards, Severity: problem.Warning,
		Summary: "a part that goes back to an earlier state",
		Explain: "A part goes from needed to ordered, arrived and fitted. " +
			"If it went back or another one is needed, say first that it was returned, cancelled or sold; then its second round is counted apart.",
		Example: twoDays("stage: rear axle\nparts:\n  rear-beam: arrived rear axle beam\n", "stage: rear axle\nparts:\nwrong|  rear-beam: ordered\n"+
			"right|  - rear-beam: returned bent\nright|  - rear-beam: ordered\n"),
		Say: func(f source.Fault) (string, string) {
			return quote(f.Word) + " goes back from " + quote(f.Why), "Write \"returned\", \"cancelled\" or \"sold\" first if a second round begins."
		},
	},
	{
		Name: journal.IDTaken, Severity: problem.Error,
		Summary: "an id that already names something else",
		Explain: "Parts, snags, checks that fall due, readings, scans and surcharges share their ids, so that `waits for` and a tick mean one thing. " +
			"Choose another id.",
		Example: `---
stage: rear axle
parts:
  rear-beam: needed rear axle beam
---
wrong|- [ ] job rear-beam: paint it before it goes in
right|- [ ] job beam-paint: paint it before it goes in; waits for rear-beam
`,
		Say: func(f source.Fault) (string, string) {
			at := ""
			if f.Other.File != nil {
				at = ", at " + place(f.Other)
			}
			return quote(f.Word) + " already names a " + f.Why + at, cmp.Or(f.Help, "Choose another id.")
		},
	},
	fittedUnpaid, refundOver, looseWhenSold, unsafeWhenSold, usedSafetyPart,
	{
		Name: journal.QuoteUnneeded, Severity: problem.Warning,
		Summary: "a quote for a part that was here already",
		Explain: "Quotes are compared for parts that are needed. This one had come by then, so the quote is for another part, or its id is wrong.",
		Example: `---
stage: rear axle
parts:
wrong|  rear-beam: arrived rear axle beam; new
wrong|cost: 138.00 beam; for rear-beam
right|  rear-beam: needed rear axle beam; new
quotes:
  rear-beam: 120.00; from Tidewell
---
`,
		Message: "nobody needs {word}: it is here already",
		Help:    "Name the part that the quote is for, or write that this one is needed again.",
	},
	secondState,
}

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

package check

import (
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var boughtElsewhere = &Check{
	Name: "bought-elsewhere", Severity: problem.Warning,
	Summary: "the price of the vehicle, or what came on top of it, in a stage of the work",
	Explain: "The forecast adds to what is spent what each stage's budget has left. A price that stands in a stage of the work leaves the budget of buying as it was, so the vehicle counts twice. " +
		"The same holds for fees and transport in the note of the price, and for a fee called as one of the card's `fees`.",
	Example: "---\nstage: body\nwrong|cost: 1400.00 hammer price; as vehicle\nright|cost: 1400.00 hammer price; as vehicle; stage buying\n---\n",
	Run: func(p *Pass) {
		b := p.State.Build
		buying := slices.IndexFunc(b.Stages, func(st *journal.Stage) bool { return st.Purchase })
		if buying < 0 {
			return
		}
		name := b.Stages[buying].Name
		priced := map[*journal.Session]bool{}
		for _, m := range b.Money {
			priced[m.Session] = priced[m.Session] || !m.Credit && m.Category == "vehicle"
		}
		for _, m := range b.Money {
			called := slices.ContainsFunc(b.Card.Fees, func(f journal.Fee) bool {
				return strings.HasPrefix(strings.ToLower(m.Description()), strings.ToLower(f.Name))
			})
			own := m.Line.Clause("stage")
			onTop := own == nil && (m.Category == "fees" && called || (m.Category == "fees" || m.Category == "transport") && priced[m.Session])
			if st := b.StageNamed(m.Stage); m.Credit || st == nil || st.Purchase || m.Category != "vehicle" && !onTop {
				continue
			}
			end := m.Line.Text.Whole()
			end.Start = end.End
			fix := &source.Fix{Span: end, Text: "; stage " + name}
			if own != nil {
				fix = &source.Fix{Span: own.Arg.Whole(), Text: name}
			}
			p.ReportFix(m.Line.HeadSpan(), "this was paid for the vehicle, but counts in "+quote(m.Stage)+", not in "+quote(name),
				"Write \"; stage "+name+"\" on the line.", fix)
		}
	},
}

package export

import (
	"guidecoat/journal/fact"
	"guidecoat/journal/pick"
)

// GarageOf is what `costs --json` prints of a garage.
func GarageOf(g *fact.Garage) Object {
	f := figures{g.Currency, true, true}
	t := g.Totals
	builds, leftOut, earnings := []Object{}, []string{}, []Object{}
	for _, b := range g.Builds {
		builds = append(builds, costsOf(head{b.Name, b.Path, b.Currency, g.AsOf, b.LinesLeftOut, true, true}, b.Costs))
		if b.Earned != nil { // after its shares of the tools; an hour is null at no minutes
			earnings = append(earnings, f.object(Object{{"build", text(b.Name)}, {"path", b.Path}, {"tool_shares", b.Carried}, {"earned", b.Earned.Sum}, {"per_hour", b.Earned.PerHour}}...))
		}
	}
	leftOut = append(leftOut, pick.Map(g.Others(), func(b fact.Housed) string { return b.Path })...)
	return f.object(Object{
		{"garage", text(g.Name)},
		{"currency", text(g.Currency.Code)},
		{"as_of", g.AsOf},
		{"lines_left_out", g.LinesLeftOut}, // of garage.md; each build has its own
		{"builds", builds},
		{"tools", objectsOf(g.Tools, func(t fact.Tool) Object {
			shares := objectsOf(t.Shares, func(s fact.Share) Object {
				return f.object(Object{{"build", text(s.Name)}, {"path", s.Path}, {"amount", s.Amount}}...)
			})
			return f.object(Object{{"tool", t.Name}, {"price", t.Price}, {"shares", shares}, {"unassigned", t.Unassigned}}...) // of builds not yet begun
		})},
		{"totals", f.object(Object{ // over the builds in the garage's currency
			{"spent", t.Spent}, {"credits", t.Credits}, {"net", t.Net}, {"minutes", t.Minutes}, {"tool_shares", t.Carried},
			{"sold", t.Sold}, {"earned", t.Earned}, {"sold_minutes", t.SoldMinutes}, {"per_hour", t.PerHour},
		}...)},
		{"left_out_of_totals", leftOut}, // folders of builds in another currency
		{"earnings", earnings},          // of the sold builds in the garage's currency
		{"track_record", objectsOf(g.TrackRecord(), func(r fact.Record) Object { // of sold builds with a budget for the stage
			return Object{{"stage", r.Stage}, {"builds", r.Builds}, {"ratio", r.Ratio.InexactFloat64()}} // mean of net by likely budget
		})},
	}...)
}

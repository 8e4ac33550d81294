package export

import (
	"guidecoat/journal/fact"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
)

// SeenOf is the build.json of a site, made from the view alone. What is not shown is null, or not in a list.
func SeenOf(v *view.View, page func(session string) string) Object {
	f, withheld := figures{v.Currency, true, v.Hours}, map[string]int{}
	for severity, n := range v.Withheld {
		withheld[severity.String()] = n
	}
	return f.object(Object{
		{"build", v.Name}, {"audience", string(v.Audience)}, {"currency", text(v.Currency.Code)}, {"as_of", v.AsOf},
		{"newest", v.Newest}, // the date of the newest session
		{"sold", v.SoldOn},   // the date of the sale
		{"odometer", text(v.Odometer)}, {"ready", readyOf(v.Ready)}, {"minutes", f.minutes(v.Minutes)},
		{"vehicle", objectsOf(v.Vehicle, func(d view.Detail) Object { return Object{{"name", d.Name}, {"value", d.Value}} })},
		{"sessions", eachOf(v.Sessions, func(s *view.SessionView) Object {
			return f.object(Object{
				{"session", s.Name},
				{"page", text(page(s.Name))}, // null where nothing of it is shown
				{"date", s.Date.String()}, {"title", s.Title}, {"stage", text(s.Stage)},
				{"minutes", f.minutes(s.Minutes)}, {"net", s.Spent},
			}...)
		})},
		{"costs", CostsOf(v)},
		{"snags", eachOf(v.Snags, func(s *view.SnagView) Object { return append(SnagOf(s, ""), shows(s.Evidence)) })},
		{"withheld", withheld}, // private but grave, by severity
		{"parts", eachOf(v.Parts, func(p *view.PartView) Object { return append(PartOf(v, p, ""), shows(p.Evidence)) })},
		{"checks", eachOf(v.Checks, func(c *view.CheckView) Object {
			return Object{{"check", c.Name}, {"date", c.Date.String()}, {"result", c.Result}, shows(c.Evidence)}
		})},
		{"readings", eachOf(v.Readings, func(r *view.ReadingView) Object {
			return Object{{"reading", r.Name}, {"date", r.Date.String()}, {"value", r.Value.String()}, shows(view.Measured)}
		})},
	}...)
}

// shows says what evidence there is; null where there is nothing to show.
func shows(e view.Evidence) field { return field{"evidence", figures{}.formatted(text(e))} }

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
		{"garage", text(g.Name)}, {"currency", text(g.Currency.Code)}, {"as_of", g.AsOf},
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

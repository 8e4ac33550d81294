package export

import "guidecoat/journal/view"

// SeenOf is what an audience may see of a build: the build.json of a site. It is made
// from the view alone. What is not shown to the audience is null, or not in a list. Page
// says where in the site a session's page is.
func SeenOf(v *view.View, page func(session string) string) Object {
	f, withheld := figures{v.Currency, true, v.Hours}, map[string]int{}
	for severity, n := range v.Withheld {
		withheld[severity.String()] = n
	}
	return f.object(Object{
		{"build", v.Name},
		{"audience", string(v.Audience)},
		{"currency", text(v.Currency.Code)},
		{"as_of", v.AsOf},
		{"newest", v.Newest}, // the date of the newest session
		{"sold", v.SoldOn},   // the date of the sale
		{"odometer", text(v.Odometer)},
		{"ready", readyOf(v.Ready)},
		{"minutes", f.minutes(v.Minutes)},
		{"vehicle", objectsOf(v.Vehicle, func(d view.Detail) Object { return Object{{"name", d.Name}, {"value", d.Value}} })},
		{"sessions", objectsOf(v.Sessions, func(s *view.SessionView) Object {
			return f.object(Object{
				{"session", s.Name},
				{"page", text(page(s.Name))}, // null where nothing of it is shown
				{"date", s.Date.String()},
				{"title", s.Title},
				{"stage", text(s.Stage)},
				{"minutes", f.minutes(s.Minutes)},
				{"net", s.Spent},
			}...)
		})},
		{"costs", CostsOf(v)},
		{"snags", objectsOf(v.Snags, func(s *view.SnagView) Object { return append(SnagOf(s, ""), shows(s.Evidence)) })},
		{"withheld", withheld}, // private but grave, by severity
		{"parts", objectsOf(v.Parts, func(p *view.PartView) Object { return append(PartOf(v, p, ""), shows(p.Evidence)) })},
		{"checks", objectsOf(v.Checks, func(c *view.CheckView) Object {
			return Object{{"check", c.Name}, {"date", c.Date.String()}, {"result", c.Result}, shows(c.Evidence)}
		})},
		{"readings", objectsOf(v.Readings, func(r *view.ReadingView) Object {
			return Object{{"reading", r.Name}, {"date", r.Date.String()}, {"value", r.Value.String()}, shows(view.Measured)}
		})},
	}...)
}

// shows says what evidence there is; null where there is nothing to show.
func shows(e view.Evidence) field { return field{"evidence", figures{}.formatted(text(e))} }

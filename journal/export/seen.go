package export

import "guidecoat/journal/view"

// Seen is what an audience may see of a build: the build.json of a site. It is made
// from the view alone. What is not shown to the audience is null, or not in a list.
type Seen struct {
	Build    string         `json:"build"`
	Audience string         `json:"audience"`
	Currency *string        `json:"currency"`
	AsOf     *string        `json:"as_of"`
	Newest   *string        `json:"newest"` // the date of the newest session
	Sold     *string        `json:"sold"`   // the date of the sale
	Odometer *string        `json:"odometer"`
	Ready    *Ready         `json:"ready"`
	Minutes  *int           `json:"minutes"`
	Vehicle  []SeenDetail   `json:"vehicle"`
	Sessions []SeenSession  `json:"sessions"`
	Costs    *Costs         `json:"costs"`
	Snags    []Snag         `json:"snags"`
	Withheld map[string]int `json:"withheld"` // private but grave, by severity
	Parts    []Part         `json:"parts"`
}

// A SeenDetail is what is known of the vehicle under a name.
type SeenDetail struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// A SeenSession is one session, with where its page is.
type SeenSession struct {
	Session string  `json:"session"`
	Page    *string `json:"page"` // null where nothing of it is shown
	Date    string  `json:"date"`
	Title   string  `json:"title"`
	Stage   *string `json:"stage"`
	Minutes *int    `json:"minutes"`
	Net     *string `json:"net"`
}

// SeenOf formats a view. Page says where in the site a session's page is.
func SeenOf(v *view.View, page func(session string) string) Seen {
	f, snags, parts := figures{v.Currency, true, v.Hours}, NewSnags(), NewParts()
	out := Seen{Build: v.Name, Audience: string(v.Audience), Currency: text(v.Currency.Code), AsOf: text(v.AsOf.String()), Newest: text(v.Newest.String()),
		Sold: text(v.SoldOn.String()), Odometer: text(v.Odometer), Ready: readyOf(v.Ready), Minutes: f.minutes(v.Minutes), Vehicle: []SeenDetail{}, Sessions: []SeenSession{},
		Costs: CostsOf(v), Withheld: map[string]int{}}
	for _, d := range v.Vehicle {
		out.Vehicle = append(out.Vehicle, SeenDetail{d.Name, d.Value})
	}
	for _, s := range v.Sessions {
		out.Sessions = append(out.Sessions, SeenSession{Session: s.Name, Page: text(page(s.Name)), Date: s.Date.String(), Title: s.Title, Stage: text(s.Stage),
			Minutes: f.minutes(s.Minutes), Net: f.orNull(s.Spent)})
	}
	for _, s := range v.Snags {
		snags.Add(s, "")
	}
	for severity, n := range v.Withheld {
		out.Withheld[severity.String()] = n
	}
	for _, p := range v.Parts {
		parts.Add(v, p, "")
	}
	out.Snags, out.Parts = snags.Snags, parts.Parts
	return out
}

package export

import (
	"guidecoat/journal/note"
	"guidecoat/journal/view"

	"github.com/shopspring/decimal"
)

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
	Minutes  *int           `json:"minutes"`
	Vehicle  []SeenDetail   `json:"vehicle"`
	Sessions []SeenSession  `json:"sessions"`
	Costs    *SeenCosts     `json:"costs"`
	Snags    []SeenSnag     `json:"snags"`
	Withheld map[string]int `json:"withheld"` // private but grave, by severity
	Parts    []SeenPart     `json:"parts"`
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

// SeenCosts are the figures as `costs --json` names them. Work alone, they leave
// out the vehicle itself and the fees, and everything that depends on them.
type SeenCosts struct {
	Whole      bool        `json:"whole"` // whether the vehicle itself and the fees count
	Spent      string      `json:"spent"`
	Credits    string      `json:"credits"`
	Net        string      `json:"net"`
	ToGarage   string      `json:"to_garage"`
	Stages     []SeenStage `json:"stages"`
	Categories []Category  `json:"categories"`
	Suppliers  []Supplier  `json:"suppliers"`
	Forecast   *Forecast   `json:"forecast"`
	Sold       *Sold       `json:"sold"`
}

// A SeenStage is the money and time of one stage.
type SeenStage struct {
	Stage   string     `json:"stage"`
	Spent   string     `json:"spent"`
	Credits string     `json:"credits"`
	Net     string     `json:"net"`
	Minutes *int       `json:"minutes"`
	Budget  *[3]string `json:"budget"`
}

// A SeenSnag is a snag as `snags --json` tells it, with the session it was opened in.
type SeenSnag struct {
	ID       *string  `json:"id"`
	Kind     *string  `json:"kind"`
	Severity string   `json:"severity"`
	Text     string   `json:"text"`
	Stage    *string  `json:"stage"`
	System   *string  `json:"system"`
	Source   string   `json:"source"`
	State    string   `json:"state"`
	Opened   string   `json:"opened"`
	Cleared  *string  `json:"cleared"`
	Due      *string  `json:"due"`
	Overdue  bool     `json:"overdue"`
	WaitsFor []string `json:"waits_for"`
	Minutes  *int     `json:"minutes"`
	Disclose bool     `json:"disclose"`
	Session  *string  `json:"session"`
}

// A SeenPart is a part as `parts --json` tells it.
type SeenPart struct {
	ID          string  `json:"id"`
	Description string  `json:"description"`
	State       string  `json:"state"`
	System      *string `json:"system"`
	Stage       *string `json:"stage"`
	Condition   *string `json:"condition"`
	Origin      *string `json:"origin"`
	Number      *string `json:"number"`
	Paid        *string `json:"paid"`
	Supplier    *string `json:"supplier"`
	Due         *string `json:"due"`
	Late        bool    `json:"late"`
}

// SeenOf formats a view. Page says where in the site a session's page is.
func SeenOf(v *view.View, page func(session string) string) Seen {
	f := figures(v.Currency)
	out := Seen{Build: v.Name, Audience: string(v.Audience), Currency: text(v.Currency.Code), AsOf: text(v.AsOf.String()), Newest: text(v.Newest.String()),
		Sold: text(v.SoldOn.String()), Odometer: text(v.Odometer), Vehicle: []SeenDetail{}, Sessions: []SeenSession{},
		Costs: f.seenCosts(v), Snags: []SeenSnag{}, Withheld: map[string]int{}, Parts: []SeenPart{}}
	if v.Hours {
		out.Minutes = new(int(v.Minutes))
	}
	for _, d := range v.Vehicle {
		out.Vehicle = append(out.Vehicle, SeenDetail{d.Name, d.Value})
	}
	for _, s := range v.Sessions {
		x := SeenSession{Session: s.Name, Page: text(page(s.Name)), Date: s.Date.String(), Title: s.Title, Stage: text(s.Stage), Net: f.optional(s.Spent)}
		if v.Hours {
			x.Minutes = new(int(s.Minutes))
		}
		out.Sessions = append(out.Sessions, x)
	}
	for _, s := range v.Snags {
		out.Snags = append(out.Snags, seenSnag(s))
	}
	for severity, n := range v.Withheld {
		out.Withheld[severity.String()] = n
	}
	for _, p := range v.Parts {
		out.Parts = append(out.Parts, SeenPart{ID: p.ID, Description: p.Description, State: p.State, System: text(p.System), Stage: text(p.Stage),
			Condition: text(p.Condition), Origin: text(p.Origin), Number: text(p.Number), Paid: f.optional(p.Paid), Supplier: text(p.Supplier),
			Due: text(p.Due.String()), Late: p.Late})
	}
	return out
}

func (f figures) optional(d *decimal.Decimal) *string {
	if d == nil {
		return nil
	}
	return new(f.sum(*d))
}

func (f figures) seenCosts(v *view.View) *SeenCosts {
	if v.Money == nil {
		return nil
	}
	c := CostsOf(Head{Currency: v.Currency}, v.Money.Costs)
	out := &SeenCosts{Whole: v.Money.Whole, Spent: c.Spent, Credits: c.Credits, Net: c.Net, ToGarage: c.ToGarage, Stages: []SeenStage{},
		Categories: c.Categories, Suppliers: c.Suppliers, Forecast: c.Forecast, Sold: c.Sold}
	for _, s := range c.Stages {
		x := SeenStage{Stage: s.Stage, Spent: s.Spent, Credits: s.Credits, Net: s.Net, Budget: s.Budget}
		if v.Hours {
			x.Minutes = &s.Minutes
		}
		out.Stages = append(out.Stages, x)
	}
	return out
}

func seenSnag(s *view.SnagView) SeenSnag {
	out := SeenSnag{ID: text(s.ID), Kind: text(s.Kind), Severity: s.Severity.String(), Text: note.PlainWords(s.Words), Stage: text(s.Stage), System: text(s.System),
		Source: string(s.Source), State: "open", Opened: s.Opened.String(), Cleared: text(s.Cleared.String()), Due: text(s.DueAt), Overdue: s.Overdue,
		WaitsFor: list(s.WaitsFor), Disclose: s.Disclose, Session: text(s.Session)}
	if !s.Open {
		out.State = "cleared"
	}
	if out.Due == nil {
		out.Due = text(s.Due.String())
	}
	if s.Takes > 0 {
		out.Minutes = new(int(s.Takes))
	}
	return out
}

package export

import (
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
)

// Garage is what `costs --json` prints of a garage.
type Garage struct {
	Garage       *string  `json:"garage"`
	Currency     *string  `json:"currency"`
	AsOf         *string  `json:"as_of"`
	LinesLeftOut int      `json:"lines_left_out"` // of garage.md; each build has its own
	Builds       []Costs  `json:"builds"`
	Tools        []Tool   `json:"tools"`
	Totals       Totals   `json:"totals"`
	LeftOut      []string `json:"left_out_of_totals"` // folders of builds in another currency
	Earnings     []Earned `json:"earnings"`           // of the sold builds in the garage's currency
	TrackRecord  []Record `json:"track_record"`
}

// A Tool is a tool that several builds share.
type Tool struct {
	Tool       string  `json:"tool"`
	Price      string  `json:"price"`
	Shares     []Share `json:"shares"`
	Unassigned string  `json:"unassigned"` // of builds not yet begun
}

// A Share is what one build carries of a tool.
type Share struct {
	Build  *string `json:"build"`
	Path   string  `json:"path"`
	Amount string  `json:"amount"`
}

// Earned is what a sold build has earned after its shares of the tools.
type Earned struct {
	Build      *string `json:"build"`
	Path       string  `json:"path"`
	ToolShares string  `json:"tool_shares"`
	Earned     string  `json:"earned"`
	PerHour    *string `json:"per_hour"` // null at no minutes
}

// A Record is how first budgets have fared in the stages of one name.
type Record struct {
	Stage  string  `json:"stage"`
	Builds int     `json:"builds"` // sold ones with a budget for it
	Ratio  float64 `json:"ratio"`  // mean of net by likely budget
}

// Totals are sums over the builds in the garage's currency.
type Totals struct {
	Spent       string  `json:"spent"`
	Credits     string  `json:"credits"`
	Net         string  `json:"net"`
	Minutes     int     `json:"minutes"`
	ToolShares  string  `json:"tool_shares"`
	Sold        int     `json:"sold"`
	Earned      string  `json:"earned"` // by the sold ones, after their shares of tools
	SoldMinutes int     `json:"sold_minutes"`
	PerHour     *string `json:"per_hour"`
}

// GarageOf formats the figures of a garage as it stood on asOf, 0 where every note counts.
func GarageOf(c *state.GarageCosts, asOf measure.Date) Garage {
	g := c.Garage
	f := figures(g.Currency)
	out := Garage{
		Garage: text(g.Name), Currency: text(g.Currency.Code), AsOf: text(asOf.String()), LinesLeftOut: g.LinesLeftOut,
		Builds: []Costs{}, Tools: []Tool{}, LeftOut: []string{},
		Totals: f.totals(c.Totals), Earnings: []Earned{}, TrackRecord: []Record{},
	}
	for _, b := range c.Builds {
		out.Builds = append(out.Builds, CostsOf(HeadOf(b.State), b))
	}
	for _, t := range c.Tools {
		tool := Tool{Tool: t.Tool.Name, Price: f.sum(t.Tool.Price), Shares: []Share{}, Unassigned: f.sum(t.Unassigned)}
		for _, s := range t.Shares {
			tool.Shares = append(tool.Shares, Share{text(s.Build.Card.Name), s.Build.Path, f.sum(s.Amount)})
		}
		out.Tools = append(out.Tools, tool)
	}
	for _, b := range c.Others {
		out.LeftOut = append(out.LeftOut, b.Path)
	}
	for _, e := range c.Earnings() {
		b := e.Costs.State.Build
		out.Earnings = append(out.Earnings, Earned{text(b.Card.Name), b.Path, f.sum(e.Shares), f.sum(e.Earned), f.orNull(e.PerHour)})
	}
	for _, r := range c.TrackRecord() {
		out.TrackRecord = append(out.TrackRecord, Record{r.Stage, r.Builds, r.Ratio.InexactFloat64()})
	}
	return out
}

func (f figures) totals(t state.GarageTotals) Totals {
	return Totals{Spent: f.sum(t.Spent), Credits: f.sum(t.Credits), Net: f.sum(t.Net), Minutes: int(t.Minutes),
		ToolShares: f.sum(t.Shares), Sold: t.Sold, Earned: f.sum(t.Earned), SoldMinutes: int(t.SoldMinutes), PerHour: f.orNull(t.PerHour)}
}

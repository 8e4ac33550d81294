package export

import "guidecoat/journal/fact"

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

// GarageOf formats the figures of a garage.
func GarageOf(g *fact.Garage) Garage {
	f := figures{g.Currency, true, true}
	t := g.Totals
	out := Garage{
		Garage: text(g.Name), Currency: text(g.Currency.Code), AsOf: text(g.AsOf.String()), LinesLeftOut: g.LinesLeftOut,
		Builds: []Costs{}, Tools: []Tool{}, LeftOut: []string{}, Earnings: []Earned{}, TrackRecord: []Record{},
		Totals: Totals{Spent: f.sum(t.Spent), Credits: f.sum(t.Credits), Net: f.sum(t.Net), Minutes: int(t.Minutes),
			ToolShares: f.sum(t.Carried), Sold: t.Sold, Earned: f.sum(t.Earned), SoldMinutes: int(t.SoldMinutes), PerHour: f.orNull(t.PerHour)},
	}
	for _, b := range g.Builds {
		out.Builds = append(out.Builds, costsOf(head{b.Name, b.Path, b.Currency, g.AsOf, b.LinesLeftOut, true, true}, b.Costs))
		if b.Earned != nil {
			out.Earnings = append(out.Earnings, Earned{text(b.Name), b.Path, f.sum(b.Carried), f.sum(b.Earned.Sum), f.orNull(b.Earned.PerHour)})
		}
	}
	for _, t := range g.Tools {
		tool := Tool{Tool: t.Name, Price: f.sum(t.Price), Shares: []Share{}, Unassigned: f.sum(t.Unassigned)}
		for _, s := range t.Shares {
			tool.Shares = append(tool.Shares, Share{text(s.Name), s.Path, f.sum(s.Amount)})
		}
		out.Tools = append(out.Tools, tool)
	}
	for _, b := range g.Others() {
		out.LeftOut = append(out.LeftOut, b.Path)
	}
	for _, r := range g.TrackRecord() {
		out.TrackRecord = append(out.TrackRecord, Record{r.Stage, r.Builds, r.Ratio.InexactFloat64()})
	}
	return out
}

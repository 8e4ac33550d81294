package export

import "guidecoat/journal/fact"

// BidAnswer is what `bid --json` prints. What depends on a bid is null where none
// leaves what is asked for, the card names no resale, or a mistake on it counts.
type BidAnswer struct {
	Currency      *string    `json:"currency"`
	Highest       *string    `json:"highest"`
	Fees          *string    `json:"fees"`
	Total         *string    `json:"total"`
	Confidence    float64    `json:"confidence"` // from 0 to 1
	Profit        string     `json:"profit"`
	ProfitMean    *string    `json:"profit_mean"`
	Chance        *float64   `json:"chance"`
	HighestHourly *string    `json:"highest_hourly"` // that pays the hours what the card asks for
	BreakEven     *string    `json:"break_even"`
	Minutes       int        `json:"minutes"` // of work, on average
	Holding       *string    `json:"holding"` // null where nothing is paid
	Matters       []Matter   `json:"matters"` // widest first
	Table         []Bid      `json:"table"`
	If            *BidAnswer `json:"if,omitempty"` // the same with other lines on the card
}

// A Bid is one row of the table.
type Bid struct {
	Bid        string  `json:"bid"`
	Fees       string  `json:"fees"`
	ProfitMean string  `json:"profit_mean"`
	Chance     float64 `json:"chance"`
}

// A Matter is what the profit would be at the best and the worst of one thing.
type Matter struct {
	Name    string `json:"name"`
	AtBest  string `json:"at_best"`
	AtWorst string `json:"at_worst"`
}

// BidOf formats the answer for a job card.
func BidOf(a fact.BidAnswer) BidAnswer {
	f := figures{currency: a.Currency}
	out := BidAnswer{Currency: text(a.Currency.Code), Confidence: a.Confidence.Shift(-2).InexactFloat64(), Profit: f.sum(a.Profit),
		Minutes: int(a.Minutes()), Holding: f.orNull(a.Holding), Matters: []Matter{}, Table: []Bid{}}
	if h := a.Highest; h != nil {
		out.Highest, out.Fees, out.Total = new(f.sum(h.Price)), new(f.sum(h.Fees)), new(f.sum(h.Total))
		out.ProfitMean, out.Chance = new(f.sum(h.ProfitMean)), new(h.Chance)
	}
	if h := a.Hourly; h != nil {
		out.HighestHourly = new(f.sum(h.Price))
	}
	if e := a.BreakEven; e != nil {
		out.BreakEven = new(f.sum(e.Price))
	}
	for _, m := range a.Matters {
		out.Matters = append(out.Matters, Matter{m.Name, f.sum(m.AtBest), f.sum(m.AtWorst)})
	}
	for _, b := range a.Table {
		out.Table = append(out.Table, Bid{f.sum(b.Price), f.sum(b.Fees), f.sum(b.ProfitMean), b.Chance})
	}
	return out
}

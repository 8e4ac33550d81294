package export

import "guidecoat/journal/fact"

// BidAnswer is what `bid --json` prints. What depends on a bid is null where none
// leaves the profit with the confidence asked for, or the card names no resale.
type BidAnswer struct {
	Currency   *string  `json:"currency"`
	Highest    *string  `json:"highest"`
	Fees       *string  `json:"fees"`
	Total      *string  `json:"total"`
	Confidence float64  `json:"confidence"` // from 0 to 1
	Profit     string   `json:"profit"`
	ProfitMean *string  `json:"profit_mean"`
	Chance     *float64 `json:"chance"`
	Table      []Bid    `json:"table"`
}

// A Bid is one row of the table.
type Bid struct {
	Bid        string  `json:"bid"`
	Fees       string  `json:"fees"`
	ProfitMean string  `json:"profit_mean"`
	Chance     float64 `json:"chance"`
}

// BidOf formats the answer for a job card.
func BidOf(a fact.BidAnswer) BidAnswer {
	f := figures{currency: a.Currency}
	out := BidAnswer{Currency: text(a.Currency.Code), Confidence: a.Confidence.Shift(-2).InexactFloat64(), Profit: f.sum(a.Profit), Table: []Bid{}}
	if h := a.Highest; h != nil {
		out.Highest, out.Fees, out.Total = new(f.sum(h.Price)), new(f.sum(h.Fees)), new(f.sum(h.Total))
		out.ProfitMean, out.Chance = new(f.sum(h.ProfitMean)), new(h.Chance)
	}
	for _, b := range a.Table {
		out.Table = append(out.Table, Bid{f.sum(b.Price), f.sum(b.Fees), f.sum(b.ProfitMean), b.Chance})
	}
	return out
}

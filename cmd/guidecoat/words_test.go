package main

import (
	"testing"

	"guidecoat/journal/fact"
	"guidecoat/journal/money"
	"guidecoat/journal/view"

	"github.com/shopspring/decimal"
)

func TestChances(t *testing.T) {
	spread := decimal.NewFromInt(100)
	for _, c := range []struct {
		alone, shared float64
		sd            decimal.Decimal
		want          string
	}{
		{1, 1, decimal.Zero, "sure"},
		{0, 0, decimal.Zero, "no chance"},
		{0.04, 0.01, spread, "next to no chance"},
		{0.96, 0.99, spread, "all but sure"},
		{0.12, 0.08, spread, "about 1 chance in 10"},
		{0.52, 0.48, spread, "about 5 chances in 10"},
		{0.02, 0.11, spread, "at most 1 chance in 10"},
		{0.02, 0.31, spread, "at most 3 chances in 10"},
		{0.98, 0.71, spread, "at least 7 chances in 10"},
		{0.98, 0.11, spread, "at least 1 chance in 10"},
		{0.62, 0.81, spread, "6 to 8 chances in 10"},
	} {
		if got := chances(&fact.Forecast{Chance: c.alone, ChanceShared: c.shared, SDTogether: c.sd}); got != c.want {
			t.Errorf("%v and %v are %q, want %q", c.alone, c.shared, got, c.want)
		}
	}
}

// What an offer is held against, in money and in hours.
func TestDifference(t *testing.T) {
	s := choiceScreen{costsScreen: costsScreen{v: &view.View{Currency: money.Currency{Code: "GBP", Digits: 2}}}}
	for _, c := range []struct {
		gain, hours int64
		want        string
	}{
		{120, 10, "going on brings £120.00 more than the offer for 10h, £12.00 an hour"},
		{120, 0, "going on brings £120.00 more than the offer"},
		{120, -2, "going on brings £120.00 more than the offer and takes 2h less"},
		{0, 10, "going on brings just what the offer does and takes 10h more"},
		{-50, 10, "going on brings £50.00 less than the offer and takes 10h more"},
		{-50, -2, "going on brings £50.00 less than the offer and takes 2h less"},
	} {
		o := &fact.Offered{Gain: decimal.NewFromInt(c.gain), MoreHours: decimal.NewFromInt(c.hours)}
		if c.hours > 0 {
			o.GainPerHour = new(o.Gain.Div(o.MoreHours))
		}
		if got := s.difference(o); got != c.want {
			t.Errorf("%d for %d hours: %q, want %q", c.gain, c.hours, got, c.want)
		}
	}
	for name, want := range map[string]string{"as it stands": "sell as it stands", "for parts": "sell for parts", "a swap": `take the offer "a swap"`} {
		if got := sell(name); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
}

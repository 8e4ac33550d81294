package state

import (
	"guidecoat/journal"
	"guidecoat/journal/measure"

	"github.com/shopspring/decimal"
)

// An Earning is what one sold build has earned after its shares of the tools.
type Earning struct {
	Costs   *Costs
	Shares  decimal.Decimal // of the tools
	Earned  decimal.Decimal
	PerHour *decimal.Decimal // nil at no minutes
}

// Earnings are those of the sold builds in the garage's currency, by path. The
// others carry tools in one currency and were sold in another.
func (c *GarageCosts) Earnings() []Earning {
	var list []Earning
	for _, b := range c.Builds {
		if b.Sold == nil || b.State.Build.Card.Currency != c.Garage.Currency {
			continue
		}
		e := Earning{Costs: b, Shares: c.Carried(b.State.Build)}
		e.Earned = b.Sold.Profit.Sub(e.Shares)
		e.PerHour = perHour(e.Earned, b.Minutes, c.Garage.Currency.Digits)
		list = append(list, e)
	}
	return list
}

// Carried is what a build carries of all tools, in the garage's currency.
func (c *GarageCosts) Carried(b *journal.Build) decimal.Decimal { return c.carried[b] }

// perHour is a sum by the hour, in minor units; nil where no time is noted.
func perHour(sum decimal.Decimal, time measure.Minutes, digits int32) *decimal.Decimal {
	if time <= 0 {
		return nil
	}
	return new(sum.Mul(decimal.NewFromInt(60)).DivRound(decimal.NewFromInt(int64(time)), digits))
}

// A Record is how first budgets have fared in the stages of one name.
type Record struct {
	Stage  string
	Builds int // that are sold and had a budget for it
	// Ratio is the mean of what the stage cost net by its likely budget: over 1 where
	// the budgets were too small.
	Ratio decimal.Decimal
}

// ratioPlaces is how far a ratio is worked out; it is shown with two.
const ratioPlaces = 8

// TrackRecord compares the first budgets of the sold builds with what the stages
// came to, in the order in which the builds name the stages. A ratio has no
// currency, so it counts every build. A likely budget of nothing gives none.
func (c *GarageCosts) TrackRecord() []Record {
	var list []Record
	at := map[string]int{}
	for _, b := range c.Builds {
		if b.Sold == nil {
			continue
		}
		for _, s := range b.Stages {
			budget := s.Budget()
			if budget == nil || budget[1].IsZero() {
				continue
			}
			i, ok := at[s.Name]
			if !ok {
				i = len(list)
				at[s.Name], list = i, append(list, Record{Stage: s.Name})
			}
			list[i].Builds++
			list[i].Ratio = list[i].Ratio.Add(s.Net.DivRound(budget[1], 2*ratioPlaces))
		}
	}
	for i := range list {
		list[i].Ratio = list[i].Ratio.DivRound(decimal.NewFromInt(int64(list[i].Builds)), ratioPlaces)
	}
	return list
}

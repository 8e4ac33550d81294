package export

import (
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"

	"github.com/shopspring/decimal"
)

// CostsOf is what `costs --json` prints of a build. What an audience may not see is null.
func CostsOf(v *view.View) Object {
	if v.Money == nil {
		return nil
	}
	return figures{v.Currency, v.Money.Whole, v.Hours}.costs(v.Name, v.BuildPath, v.AsOf, v.LinesLeftOut, v.Money.Costs)
}

func (f figures) costs(name, path string, asOf measure.Date, leftOut int, c *fact.Costs) Object {
	var holding *decimal.Decimal
	if c.Forecast != nil {
		holding = c.Forecast.Holding
	}
	return f.object(Object{
		{"build", text(name)},
		{"path", path}, // the build's folder, from the one that was named
		{"currency", text(f.currency.Code)}, {"as_of", asOf},
		{"whole", f.whole}, // whether the vehicle itself and the fees count
		{"spent", c.Spent}, // before credits
		{"credits", c.Credits}, {"net", c.Net}, {"to_garage", c.ToGarage}, {"minutes", f.minutes(c.Minutes)},
		{"surcharge_due", f.ofWhole(c.SurchargeDue)}, {"lines_left_out", leftOut},
		{"stages", pick.Map(c.Stages, f.stage)}, {"categories", f.named("category", c.Categories)},
		{"suppliers", f.named("supplier", c.Suppliers)},
		{"forecast", f.forecast(c.Forecast)}, // null once sold
		{"sold", f.sold(c.Sold)},             // null while it is not sold
		{"sale", f.sale(c.Account)},          // null where no line tells of one
		{"holding", holding},                 // still to come; null where nothing is paid, or once sold
		{"ready", readyOf(c.Ready)},          // null without a pace, or once sold
	})
}

func (f figures) stage(s fact.Stage) Object {
	return f.object(Object{
		{"stage", s.Name}, {"spent", s.Spent}, {"credits", s.Credits}, {"net", s.Net},
		{"minutes", f.minutes(s.Minutes)},
		{"budget", s.Budget}, // best, likely, worst
		{"remaining", f.ofWhole(s.Remaining)}, {"overrun", f.ofWhole(s.Overrun)},
		{"minutes_to_come", s.HoursLeft}, // best, likely and worst; null where no re-estimate says hours
		{"off_budget", s.OffBudget()},    // net less the likely budget
	})
}

// forecast is what it will have cost. What depends on the resale is null without one.
func (f figures) forecast(c *fact.Forecast) Object {
	if c == nil {
		return nil
	}
	out := Object{{"cost", c.Cost}, {"cost_mean", c.Mean}, {"cost_sd", c.SD}, {"cost_sd_together", c.SDTogether}}
	ofResale := Object{
		{"resale_mean", c.ResaleMean}, {"resale_sd", c.ResaleSD}, {"profit_mean", c.ProfitMean}, {"chance", c.Chance},
		{"chance_together", c.ChanceShared}, {"minutes_to_come", c.HoursLeft}, {"per_hour", c.PerHour}, // the mean profit by all hours, worked and to come
	}
	for _, x := range ofResale {
		if c.Resale == nil && x.key != "minutes_to_come" {
			x.value = nil
		}
		out = append(out, x)
	}
	return f.object(out)
}

func (f figures) sold(r *fact.Sold) Object {
	if r == nil {
		return nil
	}
	var byCost any // null where nothing was spent, as the hour's is at no minutes
	if r.Return != nil {
		byCost = r.Return.InexactFloat64()
	}
	return f.object(Object{{"price", r.Price}, {"date", r.Date}, {"profit", r.Profit}, {"per_hour", r.PerHour}, {"return_on_cost", byCost}})
}

// sale is how a sale stands. Floor is the workshop's; what is owed is null while nothing is agreed.
func (f figures) sale(a *fact.Account) Object {
	if a == nil {
		return nil
	}
	out := Object{{"asked", a.Asked}}
	if a.Floor != nil {
		out = append(out, field{"floor", a.Floor})
	}
	return f.object(append(out, Object{{"agreed", a.Agreed}, {"deposit", a.Deposit}, {"part_exchange", a.PartExchange},
		{"paid", a.Paid}, {"claims", a.Claims}, {"kept", a.Kept}, {"owed", a.Owed}}...))
}

// readyOf is when it will be done; a date is null where it is beyond all dates or not shown.
func readyOf(r *fact.Ready) Object {
	if r == nil {
		return nil
	}
	return figures{}.object(Object{
		{"early", r.Early}, {"likely", r.Likely}, {"late", r.Late},
		{"guessed", r.Guessed}, // snags that count for an hour, since none is said
		{"undated", r.Undated}, // parts still to come, nobody knows when
	})
}

// BidOf is what `bid --json` prints of a card. What depends on a bid is null where there is none.
func BidOf(a fact.BidAnswer) Object {
	f := figures{currency: a.Currency}
	price := func(b *fact.Bid) any {
		if b == nil {
			return nil
		}
		return b.Price
	}
	highest := Object{{"highest", nil}, {"fees", nil}, {"total", nil}, {"confidence", a.Confidence.Shift(-2).InexactFloat64()}, // from 0 to 1
		{"profit", a.Profit}, {"profit_mean", nil}, {"chance", nil}}
	if h := a.Highest; h != nil {
		highest[0].value, highest[1].value, highest[2].value = h.Price, h.Fees, h.Total
		highest[5].value, highest[6].value = h.ProfitMean, h.Chance
	}
	return f.object(slices.Concat(Object{{"currency", text(a.Currency.Code)}}, highest, Object{
		{"highest_hourly", price(a.Hourly)}, // that pays the hours what the card asks for
		{"break_even", price(a.BreakEven)},
		{"minutes", a.Minutes()}, // of work, on average
		{"holding", a.Holding},   // null where nothing is paid
		{"matters", pick.Map(a.Matters, func(m fact.Matter) Object { // widest first
			return f.object(Object{{"name", m.Name}, {"at_best", m.AtBest}, {"at_worst", m.AtWorst}})
		})},
		{"table", pick.Map(a.Table, func(b fact.Bid) Object {
			return f.object(Object{{"bid", b.Price}, {"fees", b.Fees}, {"profit_mean", b.ProfitMean}, {"chance", b.Chance}})
		})},
	}))
}

// BidsOf is the answer for a card and, where there is one, for the same with other lines on it.
func BidsOf(card fact.BidAnswer, others ...fact.BidAnswer) Object {
	return append(BidOf(card), pick.Map(others, func(o fact.BidAnswer) field { return field{"if", BidOf(o)} })...)
}

// ChoicesOf is what `choices --json` prints; null once sold, or without a resale.
func ChoicesOf(currency money.Currency, c *fact.Choices) Object {
	f := figures{currency: currency}
	way := func(w fact.Way) Object { // an hour is null where it takes none
		return Object{{"money", w.Money}, {"minutes", w.Minutes()}, {"per_hour", w.PerHour}}
	}
	var finish Object
	var offers []Object
	if c != nil {
		finish = f.object(way(c.Finish))
		offers = pick.Map(c.Offers, func(o fact.Offered) Object { // those that stand
			return f.object(slices.Concat(Object{{"offer", o.Name}}, way(o.Brings), Object{
				{"until", o.Until}, {"gain_of_finishing", o.Gain},
				{"gain_per_hour", o.GainPerHour}, // null where finishing takes no more hours
				{"turns_at", o.TurnsAt},
				{"more_minutes", o.MoreMinutes()}, // that finishing takes
			}))
		})
	}
	return f.object(Object{{"currency", text(currency.Code)}, {"finish", finish}, {"offers", offers}})
}

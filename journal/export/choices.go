package export

import (
	"guidecoat/journal/fact"
	"guidecoat/journal/money"
)

// Choices is what `choices --json` prints.
type Choices struct {
	Currency *string   `json:"currency"`
	Finish   *Way      `json:"finish"` // null once sold, and without a resale
	Offers   []Offered `json:"offers"` // those that stand
}

// A Way is what finishing brings and takes.
type Way struct {
	Money   string  `json:"money"`
	Minutes int     `json:"minutes"`
	PerHour *string `json:"per_hour"` // null where it takes no hours
}

// Offered is an offer beside finishing.
type Offered struct {
	Offer string `json:"offer"`
	Way
	Until         *string `json:"until"`
	GainOfFinish  string  `json:"gain_of_finishing"`
	GainPerHour   *string `json:"gain_per_hour"` // null where finishing takes no more hours
	TurnsAt       string  `json:"turns_at"`
	MinutesOfGain int     `json:"more_minutes"` // that finishing takes
}

// ChoicesOf formats the choices; nil gives none.
func ChoicesOf(currency money.Currency, c *fact.Choices) Choices {
	f := figures{currency: currency}
	out := Choices{Currency: text(currency.Code), Offers: []Offered{}}
	if c == nil {
		return out
	}
	way := func(w fact.Way) Way { return Way{f.sum(w.Money), int(w.Minutes()), f.orNull(w.PerHour)} }
	out.Finish = new(way(c.Finish))
	for _, o := range c.Offers {
		out.Offers = append(out.Offers, Offered{Offer: o.Name, Way: way(o.Brings), Until: text(o.Until.String()), GainOfFinish: f.sum(o.Gain),
			GainPerHour: f.orNull(o.GainPerHour), TurnsAt: f.sum(o.TurnsAt), MinutesOfGain: int(o.MoreMinutes())})
	}
	return out
}

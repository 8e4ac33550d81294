package export

import (
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/view"
)

// Costs is what `costs --json` prints of a build. What an audience may not see is null.
type Costs struct {
	Build        *string    `json:"build"`
	Path         string     `json:"path"` // the build's folder, from the one that was named
	Currency     *string    `json:"currency"`
	AsOf         *string    `json:"as_of"`
	Whole        bool       `json:"whole"` // whether the vehicle itself and the fees count
	Spent        string     `json:"spent"` // before credits
	Credits      string     `json:"credits"`
	Net          string     `json:"net"`
	ToGarage     string     `json:"to_garage"`
	Minutes      *int       `json:"minutes"`
	SurchargeDue *string    `json:"surcharge_due"`
	LinesLeftOut int        `json:"lines_left_out"`
	Stages       []Stage    `json:"stages"`
	Categories   []Category `json:"categories"`
	Suppliers    []Supplier `json:"suppliers"`
	Forecast     *Forecast  `json:"forecast"` // null once sold
	Sold         *Sold      `json:"sold"`     // null while it is not sold
	Sale         *Sale      `json:"sale"`     // null where no line tells of one
	Holding      *string    `json:"holding"`  // still to come; null where nothing is paid, or once sold
	Ready        *Ready     `json:"ready"`    // null without a pace, or once sold
}

// Ready is when it will be done; a date is null where it is beyond all dates or not shown.
type Ready struct {
	Early   *string  `json:"early"`
	Likely  *string  `json:"likely"`
	Late    *string  `json:"late"`
	Guessed int      `json:"guessed"` // snags that count for an hour, since none is said
	Undated []string `json:"undated"` // parts still to come, nobody knows when
}

func readyOf(r *fact.Ready) *Ready {
	if r == nil {
		return nil
	}
	return &Ready{text(r.Early.String()), text(r.Likely.String()), text(r.Late.String()), r.Guessed, list(r.Undated)}
}

// A Stage is the money and time of one stage.
type Stage struct {
	Stage     string     `json:"stage"`
	Spent     string     `json:"spent"`
	Credits   string     `json:"credits"`
	Net       string     `json:"net"`
	Minutes   *int       `json:"minutes"`
	Budget    *[3]string `json:"budget"` // best, likely, worst
	Remaining *[3]string `json:"remaining"`
	Overrun   *string    `json:"overrun"`
	// MinutesToCome are best, likely and worst; null where no re-estimate says hours.
	MinutesToCome *[3]int `json:"minutes_to_come"`
	OffBudget     *string `json:"off_budget"` // net less the likely budget
}

// A Category is what was spent under one category.
type Category struct {
	Category string `json:"category"`
	Spent    string `json:"spent"`
}

// A Supplier is what was spent at one supplier.
type Supplier struct {
	Supplier string `json:"supplier"`
	Spent    string `json:"spent"`
}

// A Forecast is what it will have cost in the end. What depends on the resale is
// null where the card names none.
type Forecast struct {
	Cost           [3]string `json:"cost"`
	CostMean       string    `json:"cost_mean"`
	CostSD         string    `json:"cost_sd"`
	CostSDTogether string    `json:"cost_sd_together"`
	ResaleMean     *string   `json:"resale_mean"`
	ResaleSD       *string   `json:"resale_sd"`
	ProfitMean     *string   `json:"profit_mean"`
	Chance         *float64  `json:"chance"`
	ChanceTogether *float64  `json:"chance_together"`
	MinutesToCome  [3]int    `json:"minutes_to_come"`
	PerHour        *string   `json:"per_hour"` // the mean profit by all hours, worked and to come
}

// Sold is what the sale has brought.
type Sold struct {
	Price   string  `json:"price"`
	Date    string  `json:"date"`
	Profit  string  `json:"profit"`
	PerHour *string `json:"per_hour"` // null at no minutes
	// Return is the profit by the net cost; null where nothing was spent.
	Return *float64 `json:"return_on_cost"`
}

// Sale is how a sale stands. Floor is the workshop's; what is owed is null while nothing is
// agreed.
type Sale struct {
	Asked        *string `json:"asked"`
	Floor        *string `json:"floor,omitempty"`
	Agreed       *string `json:"agreed"`
	Deposit      *string `json:"deposit"`
	PartExchange *string `json:"part_exchange"`
	Paid         *string `json:"paid"`
	Claims       *string `json:"claims"`
	Kept         *string `json:"kept"`
	Owed         *string `json:"owed"`
}

func (f figures) sale(a *fact.Account) *Sale {
	if a == nil {
		return nil
	}
	return &Sale{Asked: f.orNull(a.Asked), Floor: f.orNull(a.Floor), Agreed: f.orNull(a.Agreed), Deposit: f.orNull(a.Deposit), PartExchange: f.orNull(a.PartExchange),
		Paid: f.orNull(a.Paid), Claims: f.orNull(a.Claims), Kept: f.orNull(a.Kept), Owed: f.orNull(a.Owed)}
}

// A head is what stands above the figures of a build, and what of them is shown.
type head struct {
	name, path   string
	currency     money.Currency
	asOf         measure.Date
	leftOut      int
	whole, hours bool
}

// CostsOf formats the figures of a build as far as the view has them; nil where it has none.
func CostsOf(v *view.View) *Costs {
	if v.Money == nil {
		return nil
	}
	c := costsOf(head{v.Name, v.BuildPath, v.Currency, v.AsOf, v.LinesLeftOut, v.Money.Whole, v.Hours}, v.Money.Costs)
	return &c
}

func costsOf(h head, c *fact.Costs) Costs {
	f := figures{h.currency, h.whole, h.hours}
	out := Costs{
		Build: text(h.name), Path: h.path, Currency: text(h.currency.Code), AsOf: text(h.asOf.String()), Whole: h.whole,
		Spent: f.sum(c.Spent), Credits: f.sum(c.Credits), Net: f.sum(c.Net), ToGarage: f.sum(c.ToGarage),
		Minutes: f.minutes(c.Minutes), SurchargeDue: f.ofWhole(c.SurchargeDue), LinesLeftOut: h.leftOut,
		Stages: []Stage{}, Categories: []Category{}, Suppliers: []Supplier{},
		Forecast: f.forecast(c.Forecast), Sold: f.sold(c.Sold), Sale: f.sale(c.Account), Ready: readyOf(c.Ready),
	}
	if c.Forecast != nil {
		out.Holding = f.orNull(c.Forecast.Holding)
	}
	for _, s := range c.Stages {
		out.Stages = append(out.Stages, f.stage(s))
	}
	for _, s := range c.Categories {
		out.Categories = append(out.Categories, Category{s.Name, f.sum(s.Sum)})
	}
	for _, s := range c.Suppliers {
		out.Suppliers = append(out.Suppliers, Supplier{s.Name, f.sum(s.Sum)})
	}
	return out
}

func (f figures) stage(s fact.Stage) Stage {
	out := Stage{Stage: s.Name, Spent: f.sum(s.Spent), Credits: f.sum(s.Credits), Net: f.sum(s.Net), Minutes: f.minutes(s.Minutes),
		Budget: f.three(s.Budget), Overrun: f.ofWhole(s.Overrun), OffBudget: f.orNull(s.OffBudget())}
	if f.whole {
		out.Remaining = f.three(&s.Remaining)
	}
	if s.HoursLeft != nil {
		out.MinutesToCome = new(minutes(*s.HoursLeft))
	}
	return out
}

func (f figures) forecast(c *fact.Forecast) *Forecast {
	if c == nil {
		return nil
	}
	out := &Forecast{Cost: *f.three(&c.Cost), CostMean: f.sum(c.Mean), CostSD: f.sum(c.SD), CostSDTogether: f.sum(c.SDTogether), MinutesToCome: minutes(c.HoursLeft)}
	if c.Resale != nil {
		out.ResaleMean, out.ResaleSD = new(f.sum(c.ResaleMean)), new(f.sum(c.ResaleSD))
		out.ProfitMean = new(f.sum(c.ProfitMean))
		out.Chance, out.ChanceTogether, out.PerHour = new(c.Chance), new(c.ChanceShared), f.orNull(c.PerHour)
	}
	return out
}

func minutes(t [3]measure.Minutes) [3]int { return [3]int{int(t[0]), int(t[1]), int(t[2])} }

func (f figures) sold(r *fact.Sold) *Sold {
	if r == nil {
		return nil
	}
	out := &Sold{Price: f.sum(r.Price), Date: r.Date.String(), Profit: f.sum(r.Profit), PerHour: f.orNull(r.PerHour)}
	if r.Return != nil {
		out.Return = new(r.Return.InexactFloat64())
	}
	return out
}

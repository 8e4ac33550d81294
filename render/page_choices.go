package render

import (
	"github.com/shopspring/decimal"

	"guidecoat/journal/fact"
)

// What the workshop weighs up, on its pages alone, which are English; and the page to sell
// with: what to ask, and the words of an advert to copy.

func (p moneyLeaf) choices() {
	c := p.v.Choices
	if c == nil || len(c.Offers) == 0 {
		return
	}
	p.Raw(`<section aria-labelledby="_h-choices"><h2 id="_h-choices">{Go on or stop}</h2>
<p class="key">What is spent is spent. Only what is still to come counts, money and hours on average: best, likely and worst weighed.</p>
<div class="scroll" role="region" aria-label="Table of choices" tabindex="0">
<table class="matrix"><thead><tr><th scope="col">Way</th><th scope="col" class="sum">Brings</th><th scope="col" class="sum">Hours</th><th scope="col" class="sum">Per hour</th><th scope="col" class="sum">Finishing brings more</th><th scope="col" class="sum">Better from</th></tr></thead><tbody>
`)
	row := func(name string, w fact.Way) {
		p.Raw(`<tr><th scope="row">`).Text(title(name)).Raw(`</th><td class="sum">`).Text(p.sum(w.Money)).Raw(`</td><td class="sum">`).Text(p.Minutes(w.Minutes())).Raw(`</td><td class="sum">`)
		if w.PerHour != nil {
			p.Text(p.sum(*w.PerHour))
		}
		p.Raw("</td>")
	}
	row("finish it", c.Finish)
	p.Raw("<td></td><td></td></tr>\n")
	for _, o := range c.Offers {
		row(o.Name, o.Brings)
		p.Raw(`<td class="sum">`).Text(p.sum(o.Gain)).Raw(`</td><td class="sum">`).Text(p.sum(o.TurnsAt)).Raw("</td></tr>\n")
	}
	p.Raw("</tbody></table></div></section>\n")
}

func (p moneyLeaf) bid() {
	b := p.v.Bid
	if b == nil || len(b.Matters) == 0 || b.Matters[0].Swing().IsZero() {
		return
	}
	p.Raw(`<section aria-labelledby="_h-matters"><h2 id="_h-matters">{What matters most}</h2>
`)
	var plates []Plate
	add := func(label, note string, bid *fact.Bid) {
		if bid != nil {
			plates = append(plates, Plate{Label: label, Value: p.sum(bid.Price), Note: note})
		}
	}
	add("Bid at most", "for the profit you want, as sure as you want it", b.Highest)
	if b.Pay != nil {
		add("Bid that pays the hours", p.sum(*b.Pay)+" for each of "+p.Minutes(b.Minutes()), b.Hourly)
	}
	add("Bid that loses nothing", "on average", b.BreakEven)
	writePlates(p.W, plates)
	low, high := b.Matters[0].AtWorst, b.Matters[0].AtBest
	for _, m := range b.Matters {
		low, high = decimal.Min(low, m.AtWorst), decimal.Max(high, m.AtBest)
	}
	at := func(d decimal.Decimal) float64 { return d.Sub(low).Div(high.Sub(low)).InexactFloat64() * 100 }
	p.Raw(`<p class="key">By the job card alone: the average profit at the first bid if one thing turns out worst or best, and all else as expected.</p>
<div class="scroll" role="region" aria-label="Table of what matters" tabindex="0">
<table class="matrix budgets"><thead><tr><th scope="col">What</th><th scope="col">From worst to best</th><th scope="col" class="sum">At worst</th><th scope="col" class="sum">At best</th></tr></thead><tbody>
`)
	for _, m := range b.Matters {
		from, to := at(m.AtWorst), at(m.AtBest)
		p.Raw(`<tr><th scope="row">`).Text(title(m.Name)).Raw(`</th><td class="draw"><svg class="budget" viewBox="0 0 100 12" preserveAspectRatio="none" aria-hidden="true"><rect class="net" x="`).Text(number(from)).
			Raw(`" width="`).Text(number(max(to-from, .6))).Raw(`" y="2" height="8"/></svg></td><td class="sum">`).Text(p.sum(m.AtWorst)).Raw(`</td><td class="sum">`).Text(p.sum(m.AtBest)).Raw("</td></tr>\n")
	}
	p.Raw("</tbody></table></div></section>\n")
}

func sellingSheets(s *site) []sheet {
	return []sheet{{path: sellingFront, heading: s.Word("Selling"), description: "What to ask for " + s.v.Name + ", and an advert from its record.", calm: true,
		main: sellingPage}}
}

func sellingPage(p *leaf) {
	x := p.v.Selling
	p.begin().Raw(`<p class="lead">What it takes to earn nothing, what you ask, and the words of an advert, put together from the record.</p>
</header>
`)
	earned := func(name string, price *decimal.Decimal) Plate {
		if price == nil {
			return Plate{}
		}
		return Plate{Label: name, Value: p.sum(*price), Note: "earns " + p.sum(price.Sub(x.BreakEven))}
	}
	even := Plate{Label: "Break-even", Value: p.sum(x.BreakEven), Note: "what it will have cost, on average"}
	list := []Plate{even, earned("Floor", x.Floor), earned("Asking price", x.Asked)}
	writePlates(p.W, list).Raw(`
<section aria-labelledby="_h-advert"><h2 id="_h-advert">{An advert}</h2>
<p class="key">Facts of the record, what is wrong among them; nothing private, no plate, no names. Copy it, and put your own words before it.</p>
`)
	if x.Withheld > 0 {
		p.Raw(`<div class="caution" role="note"><strong>Not in it:</strong> `).Text(p.Say("%d grave snags", x.Withheld)).Raw(" that you keep private. A buyer must be told.</div>\n")
	}
	p.Raw(`<div class="prose"><pre class="advert"><code>`).Text(x.Advert).Raw("</code></pre></div>\n</section>\n")
}

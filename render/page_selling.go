package render

import "github.com/shopspring/decimal"

// The page to sell with: what to ask, and the words of an advert to copy.

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
		return Plate{Label: name, Value: p.sum(*price), Note: "earns " + p.sum(price.Sub(x.BreakEven))}
	}
	list := []Plate{{Label: "Break-even", Value: p.sum(x.BreakEven), Note: "what it will have cost, on average"}}
	if x.Floor != nil {
		list = append(list, earned("Floor", x.Floor))
	}
	if x.Asked != nil {
		list = append(list, earned("Asking price", x.Asked))
	}
	writePlates(p.W, list)
	p.Raw(`
<section aria-labelledby="_h-advert"><h2 id="_h-advert">{An advert}</h2>
<p class="key">Facts of the record, what is wrong among them; nothing private, no plate, no names. Copy it, and put your own words before it.</p>
`)
	if x.Withheld > 0 {
		p.Raw(`<div class="caution" role="note"><strong>Not in it:</strong> `).Text(p.Say("%d grave snags", x.Withheld)).Raw(" that you keep private. A buyer must be told.</div>\n")
	}
	p.Raw(`<div class="prose"><pre class="advert"><code>`).Text(x.Advert).Raw("</code></pre></div>\n</section>\n")
}

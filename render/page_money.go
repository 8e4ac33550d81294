package render

import (
	"guidecoat/journal/fact"
	"guidecoat/render/markup"

	"github.com/shopspring/decimal"
)

func hasMoney(s *site) bool {
	m := s.v.Money
	return m != nil && (!m.Costs.Spent.IsZero() || !m.Costs.Credits.IsZero() || m.Costs.Sold != nil || m.Costs.Account != nil || len(m.Lines) > 0)
}

func moneySheets(s *site) []sheet {
	return s.ledger.sheets(func(v volume) sheet {
		return sheet{heading: v.heading(s, "Money"), description: s.Say("What %s has cost, by stage and by category.", s.v.Name), main: func(p *leaf) { moneyLeaf{p}.moneyPage(v) }}
	})
}

type moneyLeaf struct{ *leaf }

func (p moneyLeaf) moneyPage(v volume) {
	lines := p.ledger.in(v)
	suppliers := cutWhile(&lines, func(e ledgerEntry) bool { return e.supplier != nil })
	m := p.v.Money
	counts := p.Say("Every sum is in %s and counts what was spent on the work; the vehicle itself and the fees of buying and selling it are left out.", p.v.Currency.Code)
	if m.Whole {
		counts = p.Say("Every sum is in %s and counts everything, the vehicle itself and all fees included.", p.v.Currency.Code)
	}
	p.begin().With(`<p class="lead">`, counts, "</p>\n")
	var categories []fact.NamedSum
	if v.front && m.LinesShown {
		categories = categoriesOf(p.leaf.site)
	}
	budgets := v.front && hasBudgets(p.leaf.site)
	if len(categories) > 0 {
		p.Raw(`<p class="jump">`)
		p.If(v.front && (m.Costs.Sold != nil || accountFacts(p.leaf.site) != nil), `<a href="#_sale">{The sale}</a> `)
		p.Raw(`<a href="#_stages">{By stage}</a> `)
		p.If(budgets, `<a href="#_h-budgets">{Budgets}</a> `)
		p.Raw(`<a href="#_h-categories">{By category}</a> `)
		p.If(len(suppliers) > 0, `<a href="#_h-suppliers">{By supplier}</a> `)
		p.If(len(lines) > 0, `<a href="#_lines">{Every line}</a>`)
		p.Raw("</p>\n")
	}
	p.volumes(p.ledger.book)
	p.Raw("</header>\n")
	if v.front {
		writePlates(p.W, moneyPlates(p.leaf.site))
	}
	p.Raw("\n")
	if v.front {
		p.sale()
		p.forecast()
		p.choices()
		p.bid()
		if m.LinesShown {
			p.chart(runningChart(p.leaf.site), runningTotal)
		}
		p.matrix()
	}
	if budgets {
		p.budgets()
	}
	markup.Each(p.W, categories, `<section aria-labelledby="_h-categories"><details class="fold"><summary><h2 id="_h-categories">{By category}</h2></summary>
<ul class="sums">
`, p.category, "</ul></details></section>\n")
	markup.Each(p.W, suppliers, `<section aria-labelledby="_h-suppliers"><details class="fold"><summary><h2 id="_h-suppliers">{By supplier}</h2></summary>
<ul class="sums">
`, p.supplier, "</ul></details></section>\n")
	if len(lines) > 0 {
		p.lines(lines)
	}
}

var runningTotal = markup.Around(`<section aria-labelledby="_h-running"><h2 id="_h-running">{Running total}</h2>
`, "</section>\n")

func moneyPlates(s *site) []Plate {
	c := s.v.Money.Costs
	list := []Plate{{Label: "Paid", Value: s.sum(c.Spent)}}
	add := func(d decimal.Decimal, label, note string) {
		if !d.IsZero() {
			list = append(list, Plate{Label: label, Value: s.sum(d), Note: s.Word(note)})
		}
	}
	add(c.Credits.Neg(), "Money back", "refunds, surcharges returned, spares and scrap sold")
	if !c.Credits.IsZero() {
		add(c.Net, "Net", "paid less money back")
	}
	add(c.ToGarage, "Kept in the garage", "tools, and shares of what other builds use too; not in the sums of this build")
	add(c.SurchargeDue, "Surcharge to come", "comes back when the old parts are returned")
	if c.Minutes > 0 {
		list = append(list, Plate{Label: "Work", Value: s.Minutes(c.Minutes)})
	}
	return list
}

// Anchors of the page of money. They begin with an underscore, lines do not.

func stageAnchor(s *site, stage string) string {
	if s.v.Money == nil || !s.v.Money.LinesShown {
		return "_stages"
	}
	return stageID(stage)
}

func stageID(stage string) string { return "_" + slug(stage) }

func groupID(stage, category string) string { return "_" + slug(stage) + "_" + slug(category) }

// matrix writes the costs by stage and category, with the sums before credits and after.
func (p moneyLeaf) matrix() {
	c, listed := p.v.Money.Costs, p.listed
	p.Raw(`<section id="_stages" aria-labelledby="_h-stages"><h2 id="_h-stages">{By stage and category}</h2>
<div class="scroll" role="region" aria-label="{Table of stages and categories}" tabindex="0">
<table class="matrix"><thead><tr><th scope="col">{Stage}</th><th scope="col" class="sum">{Net}</th>`)
	for _, x := range c.Categories {
		p.Raw(`<th scope="col" class="sum">`).Text(title(p.Word(x.Name))).Raw("</th>")
	}
	p.Raw(`<th scope="col" class="sum">{Money back}</th><th scope="col" class="sum">{Time}</th></tr></thead>
<tbody>
`)
	for _, st := range c.Stages {
		if st.Spent.IsZero() && st.Credits.IsZero() && st.Minutes == 0 {
			continue
		}
		p.Raw(`<tr><th scope="row">`).Named(st.Name, p.stageName(st.Name)).Raw("</th>")
		p.net(st.Net, stageAnchor(p.leaf.site, st.Name), listed[[2]string{st.Name}])
		for _, x := range c.Categories {
			p.cell(st.Category(x.Name), groupID(st.Name, x.Name), listed[[2]string{st.Name, x.Name}])
		}
		p.cell(st.Credits.Neg(), groupID(st.Name, credits), listed[[2]string{st.Name, credits}])
		p.Raw(`<td class="sum">`).Text(p.some(st.Minutes)).Raw("</td></tr>\n")
	}
	p.Raw(`</tbody><tfoot><tr><th scope="row">{All stages}</th>`)
	p.net(c.Net, "_lines", len(listed) > 0)
	for _, x := range c.Categories {
		p.cell(x.Sum, categoryID(x.Name), true)
	}
	p.cell(c.Credits.Neg(), categoryID(credits), true)
	p.Raw(`<td class="sum">`).Text(p.some(c.Minutes)).Raw(`</td></tr></tfoot></table>
</div></section>
`)
}

// cell writes a sum of the table, which leads to what it adds up where that is listed.
func (p moneyLeaf) cell(d decimal.Decimal, anchor string, listed bool) {
	p.leadingSum(p.Raw(`<td class="sum">`), d, anchor, listed).Raw("</td>")
}

func (p moneyLeaf) net(d decimal.Decimal, anchor string, listed bool) {
	p.leadingSum(p.Raw(`<td class="sum net">`), d, anchor, listed).Raw("</td>")
}

func (p moneyLeaf) leadingSum(w *markup.W, d decimal.Decimal, anchor string, listed bool) *markup.W {
	switch {
	case d.IsZero():
		return w
	case listed && p.v.Money.LinesShown:
		return p.link(p.ledger.to(moneyFront, anchor), p.sum(d))
	}
	return w.Text(p.sum(d))
}

func (s *voice) stageName(name string) string {
	if name == fact.Unstaged {
		return s.Say("No stage")
	}
	return title(name)
}

package render

import (
	"cmp"
	"slices"
	"strconv"

	"github.com/shopspring/decimal"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// The sums of money, its lines, and the ways that lead from a sum to those it adds up.

const csvName = "costs.csv"

func hasCSV(s *site) bool { return s.v.Money != nil && len(s.v.Money.Lines) > 0 }

// credits is what stands for the category of money that came back.
const credits = "Money back"

// lineGroup says under which stage and category a line is listed.
func lineGroup(l *view.MoneyLine) (stageAndCategory [2]string) {
	return [2]string{cmp.Or(l.Stage, fact.Unstaged), pick.Either(l.Credit, credits, l.Category)}
}

// under is what a stage adds up under a category.
func under(st fact.Stage, category string) decimal.Decimal {
	return pick.Either(category == credits, st.Credits.Neg(), st.Category(category))
}

// nameLines gives the lines of money their anchors, and finds those of each supplier.
func (s *site) nameLines() {
	s.lines, s.bySupplier, s.listed = map[lineKey]string{}, map[string][]*view.MoneyLine{}, map[[2]string]bool{}
	if s.v.Money == nil {
		return
	}
	for i, l := range s.v.Money.Lines {
		s.lines[lineKey{l.Note, l.Line}] = "line-" + strconv.Itoa(i+1)
		group := lineGroup(l)
		s.listed[[2]string{group[0]}], s.listed[group] = true, true
		if l.Supplier != "" && !l.Credit {
			s.bySupplier[l.Supplier] = append(s.bySupplier[l.Supplier], l)
		}
	}
}

func moneySheets(s *site) []sheet {
	return s.ledger.sheets(s, "Money", s.Say("What %s has cost, by stage and by category.", s.v.Name), func(p *leaf, v volume) { moneyLeaf{p}.moneyPage(v) })
}

func (p moneyLeaf) moneyPage(v volume) {
	suppliers := pick.Where(p.ledger.in(v), func(e ledgerEntry) bool { return e.supplier != nil })
	lines := pick.Where(p.ledger.in(v), func(e ledgerEntry) bool { return e.line != nil })
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
		sold := m.Costs.Sold != nil || accountFacts(p.leaf.site) != nil
		p.Raw(`<p class="jump">`).If(sold, `<a href="#_sale">{The sale}</a> `).Raw(`<a href="#_stages">{By stage}</a> `).
			If(budgets, `<a href="#_h-budgets">{Budgets}</a> `).Raw(`<a href="#_h-categories">{By category}</a> `).
			If(len(suppliers) > 0, `<a href="#_h-suppliers">{By supplier}</a> `).If(len(lines) > 0, `<a href="#_lines">{Every line}</a>`).Raw("</p>\n")
	}
	p.volumes(p.ledger.book).Raw("</header>\n")
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
			p.chart(runningChart(p.leaf.site), markup.Around(`<section aria-labelledby="_h-running"><h2 id="_h-running">{Running total}</h2>
`, "</section>\n"))
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

func moneyPlates(s *site) []Plate {
	c := s.v.Money.Costs
	back := c.Credits.Neg()
	net := pick.Either(back.IsZero(), "", s.someSum(&c.Net))
	return []Plate{
		{Label: "Paid", Value: s.sum(c.Spent)},
		{Label: "Money back", Value: s.someSum(&back), Note: s.Word("refunds, surcharges returned, spares and scrap sold")},
		{Label: "Net", Value: net, Note: s.Word("paid less money back")},
		{Label: "Kept in the garage", Value: s.someSum(&c.ToGarage),
			Note: s.Word("tools, and shares of what other builds use too; not in the sums of this build")},
		{Label: "Surcharge to come", Value: s.someSum(&c.SurchargeDue), Note: s.Word("comes back when the old parts are returned")},
		{Label: "Work", Value: s.some(c.Minutes)},
	}
}

// Anchors of the page of money. They begin with an underscore, lines do not.

func stageAnchor(s *site, stage string) string {
	return pick.Either(s.v.Money != nil && s.v.Money.LinesShown, stageID(stage), "_stages")
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
		p.cell("sum net", st.Net, stageAnchor(p.leaf.site, st.Name), listed[[2]string{st.Name}])
		for _, x := range c.Categories {
			p.cell("sum", st.Category(x.Name), groupID(st.Name, x.Name), listed[[2]string{st.Name, x.Name}])
		}
		p.cell("sum", st.Credits.Neg(), groupID(st.Name, credits), listed[[2]string{st.Name, credits}])
		p.Raw(`<td class="sum">`).Text(p.some(st.Minutes)).Raw("</td></tr>\n")
	}
	p.Raw(`</tbody><tfoot><tr><th scope="row">{All stages}</th>`)
	p.cell("sum net", c.Net, "_lines", len(listed) > 0)
	for _, x := range c.Categories {
		p.cell("sum", x.Sum, categoryID(x.Name), true)
	}
	p.cell("sum", c.Credits.Neg(), categoryID(credits), true)
	p.Raw(`<td class="sum">`).Text(p.some(c.Minutes)).Raw(`</td></tr></tfoot></table>
</div></section>
`)
}

// cell writes a sum of the table, which leads to what it adds up where that is listed.
func (p moneyLeaf) cell(class string, d decimal.Decimal, anchor string, listed bool) {
	p.Raw(`<td class="`).Text(class).Raw(`">`)
	switch {
	case d.IsZero():
	case listed && p.v.Money.LinesShown:
		p.link(p.ledger.to(moneyFront, anchor), p.sum(d))
	default:
		p.Text(p.sum(d))
	}
	p.Raw("</td>")
}

func categoryID(category string) string { return "_all_" + slug(category) }

// categoriesOf are those that there is a sum of, the credits last.
func categoriesOf(s *site) []fact.NamedSum {
	c := s.v.Money.Costs
	if c.Credits.IsZero() {
		return c.Categories
	}
	return append(slices.Clone(c.Categories), fact.NamedSum{Name: credits, Sum: c.Credits.Neg()})
}

// category tells which stages a category adds up, the way to their lines.
func (p moneyLeaf) category(x fact.NamedSum) {
	name, first := x.Name, true
	p.Raw(`<li id="`).Text(categoryID(name)).Raw(`"><b>`).Text(title(p.Word(name))).Raw(`</b> <b class="sum">`).Text(p.sum(x.Sum)).Raw("</b>")
	for _, st := range p.v.Money.Costs.Stages {
		d := under(st, name)
		if d.IsZero() {
			continue
		}
		listed := p.listed[[2]string{st.Name, name}]
		if p.If(first, "<p>").If(!first, " + "); listed {
			p.Raw("<a").Href(p.ledger.to(moneyFront, groupID(st.Name, name))).Raw(">")
		}
		p.Named(st.Name, p.stageName(st.Name)).Raw(" ").Text(p.sum(d)).If(listed, "</a>")
		first = false
	}
	p.If(!first, "</p>").Raw("</li>\n")
}

// supplierLines is how many lines a long list leads to. All are in the file of costs.
const supplierLines = 12

func (p moneyLeaf) supplier(e ledgerEntry) {
	p.Raw("<li><b>").Quote("", e.supplier.Name, "").Raw(`</b> <b class="sum">`).Text(p.sum(e.supplier.Sum)).Raw("</b>")
	of := p.bySupplier[e.supplier.Name]
	for i, l := range of {
		p.If(i == 0, "<p>").If(i > 0, " + ")
		if i == supplierLines && len(p.ledger.volumes) > 1 {
			p.Text(p.Say("%d lines more", len(of)-i))
			break
		}
		p.link(p.ledger.to(p.path, anchorOfLine(p.leaf.site, l)), p.sum(l.Amount))
	}
	p.If(len(of) > 0, "</p>").Raw("</li>\n")
}

func bindLedger(s *site) {
	s.ledger = bind(binding{front: moneyFront, cover: s.Word("Sums"), taken: s.paths.taken}, ledgerEntries(s), func(e ledgerEntry) entry {
		if e.supplier != nil {
			return entry{shelf: "suppliers", name: s.Word("Suppliers"), weight: 2, anchors: []string{"_h-suppliers"}}
		}
		return entry{shelf: e.id[1:], name: s.stageName(e.stage.Name), weight: 1,
			anchors: []string{anchorOfLine(s, e.line), e.id, e.group, "_lines"}}
	})
}

func ledgerEntries(s *site) []ledgerEntry {
	if s.v.Money == nil {
		return nil
	}
	list := pick.Map(s.v.Money.Costs.Suppliers, func(x fact.NamedSum) ledgerEntry { return ledgerEntry{supplier: &x} })
	byGroup := pick.By(s.v.Money.Lines, lineGroup)
	for i := range s.v.Money.Costs.Stages {
		st := &s.v.Money.Costs.Stages[i]
		id := stageID(st.Name)
		for _, category := range append(note.Categories[:len(note.Categories):len(note.Categories)], credits) {
			group := groupID(st.Name, category)
			for _, l := range byGroup[[2]string{st.Name, category}] {
				list = append(list, ledgerEntry{stage: st, category: category, line: l, id: id, group: group})
			}
		}
	}
	return list
}

func anchorOfLine(s *site, l *view.MoneyLine) string { return s.lines[lineKey{l.Note, l.Line}] }

// lines writes lines under the headings of their stages and categories.
func (p moneyLeaf) lines(list []ledgerEntry) {
	p.Raw(`<section class="ledger" id="_lines" aria-labelledby="_h-lines"><h2 id="_h-lines">{Every line}</h2>
`)
	if hasCSV(p.leaf.site) {
		p.Raw(`<p class="about"><a`).Href(root(p.path) + csvName).Raw(">{These lines as a CSV file}</a></p>")
	}
	rest := p.v.Money.NotListed()
	apart := p.Say("Lines that the builder keeps private come to %s. They count in every sum, and are not listed.", p.sum(rest))
	p.Raw("\n").With(`<p class="lead">`, given(p.v.Money.LinesShown && !rest.IsZero(), apart), "</p>").Raw("\n")
	for _, block := range runsOf(list, func(e ledgerEntry) string { return e.id }) {
		st := block[0].stage
		id := block[0].id
		p.Raw(`<details class="fold" id="`).Text(id).Raw(`"><summary><h3>`).Named(st.Name, p.stageName(st.Name)).Raw("</h3> <b>").Text(p.sum(st.Net)).Raw("</b></summary>\n")
		for _, g := range runsOf(block, func(e ledgerEntry) string { return e.group }) {
			sum := p.sum(under(*st, g[0].category))
			p.Raw(`<table class="lines money" id="`).Text(g[0].group).Raw(`"><caption>`).Text(title(p.Word(g[0].category))).Raw(" <b>").Text(sum)
			markup.Each(p.W, g, "</b></caption><tbody>\n", p.line, "</tbody></table>\n")
		}
		p.Raw("</details>\n")
	}
	p.Raw("</section>\n")
}

func (p moneyLeaf) line(e ledgerEntry) {
	l := e.line
	p.Raw(`<tr id="`).Text(anchorOfLine(p.leaf.site, l)).Raw(`"><td class="date">`)
	p.shortDate(l.Session, l.Date).Raw("</td><td>").Quote("", p.lineWords(l), "")
	if l.Part != "" {
		p.Raw(" <small>{for} ")
		p.quoted(p.toID(p.path, l.Part), p.named(l.Part)).Raw("</small>")
	}
	p.Quote(" <small>", l.Supplier, "</small>")
	p.lineReceipt(l)
	p.With(" <small>", workedOut(p.leaf.site, l), "</small>")
	p.private(l.Private).Raw(`</td><td class="sum">`).Text(p.signed(l)).Raw("</td></tr>\n")
}

func (p *leaf) lineReceipt(l *view.MoneyLine) {
	if l.Receipt != "" {
		p.Raw(" <small>{receipt} ")
		p.receipt(l.Note, l.Receipt).Raw("</small>")
	}
}

// workedOut says how the amount of a line came about; "" where it is plain.
func workedOut(s *site, l *view.MoneyLine) string {
	switch {
	case l.Garage.IsZero():
		return ""
	case l.Amount.IsZero():
		return s.Say("%s, kept in the garage", s.sum(l.Whole))
	}
	return s.Say("of %s, the rest kept in the garage", s.sum(l.Whole))
}

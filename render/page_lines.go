package render

import (
	"cmp"
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// The lines of money, and the ways that lead from a sum to those it adds up.

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
		d := st.Category(name)
		if name == credits {
			d = st.Credits.Neg()
		}
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

// lineGroup says under which stage and category a line is listed.
func lineGroup(l *view.MoneyLine) (stage, category string) {
	stage, category = l.Stage, l.Category
	stage = cmp.Or(stage, fact.Unstaged)
	if l.Credit {
		category = credits
	}
	return stage, category
}

// A ledgerEntry is of the list below the sums: first suppliers, then every line by stage and category.
type ledgerEntry struct {
	supplier *fact.NamedSum
	stage    fact.Stage
	category string
	line     *view.MoneyLine

	id, group string // the anchors of the stage and of the category in it
}

func bindLedger(s *site) {
	s.ledger = bind(binding{front: moneyFront, cover: s.Word("Sums"), taken: s.paths.taken}, ledgerEntries(s), func(e ledgerEntry) entry {
		if e.supplier != nil {
			return entry{shelf: "suppliers", name: s.Word("Suppliers"), weight: 2, anchors: []string{"_h-suppliers"}}
		}
		return entry{shelf: slug(e.stage.Name), name: s.stageName(e.stage.Name), weight: 1,
			anchors: []string{anchorOfLine(s, e.line), e.id, e.group, "_lines"}}
	})
}

func ledgerEntries(s *site) []ledgerEntry {
	if s.v.Money == nil {
		return nil
	}
	list := pick.Map(s.v.Money.Costs.Suppliers, func(x fact.NamedSum) ledgerEntry { return ledgerEntry{supplier: &x} })
	byGroup := map[[2]string][]*view.MoneyLine{}
	for _, l := range s.v.Money.Lines {
		stage, category := lineGroup(l)
		byGroup[[2]string{stage, category}] = append(byGroup[[2]string{stage, category}], l)
	}
	for _, st := range s.v.Money.Costs.Stages {
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

// credits is what stands for the category of money that came back.
const credits = "Money back"

func anchorOfLine(s *site, l *view.MoneyLine) string { return s.lines[lineKey{l.Note, l.Line}] }

// lines writes lines under the headings of their stages and categories.
func (p moneyLeaf) lines(list []ledgerEntry) {
	p.Raw(`<section class="ledger" id="_lines" aria-labelledby="_h-lines"><h2 id="_h-lines">{Every line}</h2>
`)
	if hasCSV(p.leaf.site) {
		p.Raw(`<p class="about"><a`).Href(root(p.path) + csvName).Raw(">{These lines as a CSV file}</a></p>")
	}
	p.Raw("\n")
	if rest := p.v.Money.NotListed(); p.v.Money.LinesShown && !rest.IsZero() {
		p.Raw(`<p class="lead">`).Text(p.Say("Lines that the builder keeps private come to %s. They count in every sum, and are not listed.", p.sum(rest))).Raw("</p>")
	}
	p.Raw("\n")
	for _, block := range runs(list, func(e ledgerEntry) string { return e.id }) {
		st := block[0].stage
		id := block[0].id
		p.Raw(`<details class="fold" id="`).Text(id).Raw(`"><summary><h3>`).Named(st.Name, p.stageName(st.Name)).Raw("</h3> <b>").Text(p.sum(st.Net)).Raw("</b></summary>\n")
		for _, g := range runs(block, func(e ledgerEntry) string { return e.group }) {
			sum := p.sum(st.Category(g[0].category))
			if g[0].category == credits {
				sum = p.sum(st.Credits.Neg())
			}
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
		p.quoted(p.id(p.path, l.Part), p.named(l.Part)).Raw("</small>")
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

// lineWords are what a line is for.
func (s *voice) lineWords(l *view.MoneyLine) string {
	if l.Description == "" {
		return title(s.Word(l.Category))
	}
	return l.Description
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

package render

import (
	"html/template"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/state"
	"guidecoat/journal/view"

	"github.com/shopspring/decimal"
)

// The lines of money, and the ways that lead from a sum to those it adds up.

// A SumRow is a sum with what it adds up.
type SumRow struct {
	ID, Name, Sum string
	Lines         template.HTML // what it adds up
}

// StageLines are the lines of a stage by category.
type StageLines struct {
	ID, Name, Sum string
	Groups        []CategoryLines
}

// CategoryLines are the lines of one category, or the credits.
type CategoryLines struct {
	ID, Name, Sum string
	Rows          []LineRow
}

// A LineRow is one line of money.
type LineRow struct {
	ID       string
	When     template.HTML
	Text     string
	Part     template.HTML
	Supplier string
	Receipt  template.HTML
	Amount   string
	Link     template.HTML // the amount, leading to the line
	Worked   string        // how the amount came about
	Private  bool
}

func categoryID(category string) string { return "_all_" + slug(category) }

// categoryRows tell of each category which stages it adds up, the way to their lines.
func (s *site) categoryRows() []SumRow {
	c := s.v.Money.Costs
	listed := s.listed()
	row := func(name, sum string, of func(state.StageCosts) decimal.Decimal) SumRow {
		var lines []template.HTML
		for _, st := range c.Stages {
			if d := of(st); !d.IsZero() {
				href := ""
				if id := groupID(st.Name, name); listed[id] {
					href = s.ledger.to(moneyFront, id)
				}
				lines = append(lines, link(href, s.stageName(st, st.Name)+" "+minus(s.sum(d))))
			}
		}
		return SumRow{categoryID(name), title(name), minus(sum), joined(lines, " + ")}
	}
	var list []SumRow
	for _, x := range c.Categories {
		list = append(list, row(x.Name, s.sum(x.Sum), func(st state.StageCosts) decimal.Decimal { return st.Category(x.Name) }))
	}
	if !c.Credits.IsZero() {
		list = append(list, row(credits, s.sum(c.Credits.Neg()), func(st state.StageCosts) decimal.Decimal { return st.Credits.Neg() }))
	}
	return list
}

// listed tells for which stages and groups there are lines to lead to.
func (s *site) listed() map[string]bool {
	there := map[string]bool{}
	for _, l := range s.v.Money.Lines {
		stage, category := lineGroup(l)
		there[stage], there[groupID(stage, category)] = true, true
	}
	return there
}

// lineGroup says under which stage and category a line is listed.
func lineGroup(l *view.MoneyLine) (stage, category string) {
	stage, category = l.Stage, l.Category
	if stage == "" {
		stage = journal.Unstaged
	}
	if l.Credit {
		category = credits
	}
	return stage, category
}

// A ledgerEntry is what the list below the sums is made of: first the suppliers,
// then every line once, by stage and category in the order of the table above.
type ledgerEntry struct {
	supplier *state.NamedSum
	stage    state.StageCosts
	category string
	line     *view.MoneyLine
}

const moneyFront = "money.html"

func (s *site) bindLedger() {
	s.ledger = bind(binding{front: moneyFront, cover: "Sums", taken: s.paths.taken}, s.ledgerEntries(), func(e ledgerEntry) entry {
		if e.supplier != nil {
			return entry{shelf: "suppliers", name: "Suppliers", weight: 2, anchors: []string{"_h-suppliers"}}
		}
		return entry{shelf: slug(e.stage.Name), name: s.stageName(e.stage, e.stage.Name), weight: 1,
			anchors: []string{s.lineID(e.line), stageID(e.stage.Name), groupID(e.stage.Name, e.category), "_lines"}}
	})
}

func (s *site) ledgerEntries() []ledgerEntry {
	if s.v.Money == nil {
		return nil
	}
	var list []ledgerEntry
	for _, x := range s.v.Money.Costs.Suppliers {
		list = append(list, ledgerEntry{supplier: &x})
	}
	byGroup := map[[2]string][]*view.MoneyLine{}
	for _, l := range s.v.Money.Lines {
		stage, category := lineGroup(l)
		byGroup[[2]string{stage, category}] = append(byGroup[[2]string{stage, category}], l)
	}
	for _, st := range s.v.Money.Costs.Stages {
		for _, category := range append(note.Categories[:len(note.Categories):len(note.Categories)], credits) {
			for _, l := range byGroup[[2]string{st.Name, category}] {
				list = append(list, ledgerEntry{stage: st, category: category, line: l})
			}
		}
	}
	return list
}

// credits is what stands for the category of money that came back.
const credits = "credits"

// stageLines puts lines under the headings of their stages and categories.
func (s *site) stageLines(at string, list []ledgerEntry) []StageLines {
	var blocks []StageLines
	for _, e := range list {
		if e.line == nil {
			continue
		}
		if n := len(blocks); n == 0 || blocks[n-1].ID != stageID(e.stage.Name) {
			blocks = append(blocks, StageLines{ID: stageID(e.stage.Name), Name: s.stageName(e.stage, e.stage.Name), Sum: minus(s.sum(e.stage.Net))})
		}
		block := &blocks[len(blocks)-1]
		id := groupID(e.stage.Name, e.category)
		if n := len(block.Groups); n == 0 || block.Groups[n-1].ID != id {
			g := CategoryLines{ID: id, Name: title(e.category), Sum: s.sum(e.stage.Category(e.category))}
			if e.category == credits {
				g.Sum = minus(s.sum(e.stage.Credits.Neg()))
			}
			block.Groups = append(block.Groups, g)
		}
		g := &block.Groups[len(block.Groups)-1]
		g.Rows = append(g.Rows, s.lineRow(at, e.line))
	}
	return blocks
}

func (s *site) lineID(l *view.MoneyLine) string { return s.lines[lineKey{l.Note, l.Line}] }

func (s *site) lineRow(at string, l *view.MoneyLine) LineRow {
	id := s.lineID(l)
	r := LineRow{ID: id, When: around(s.session(at, l.Session), s.shortWhen(l.Date)), Text: l.Description, Supplier: l.Supplier, Receipt: s.receipt(at, l.Note, l.Receipt),
		Amount: s.signed(l), Private: l.Private}
	r.Link = link(s.ledger.to(at, id), r.Amount)
	if l.Part != "" {
		r.Part = link(s.id(at, l.Part), s.named(l.Part))
	}
	if r.Text == "" {
		r.Text = title(l.Category)
	}
	if !l.Garage.IsZero() {
		r.Worked = "of " + s.sum(l.Whole) + ", the rest kept in the garage"
		if l.Amount.IsZero() {
			r.Worked = s.sum(l.Whole) + ", kept in the garage"
		}
	}
	return r
}

// supplierLines is how many of a supplier's lines a long list leads to. All are in
// the file of costs too.
const supplierLines = 12

func (s *site) supplierRows(at string, list []ledgerEntry) []SumRow {
	var rows []SumRow
	for _, e := range list {
		if e.supplier == nil {
			continue
		}
		var lines []template.HTML
		of := s.bySupplier[e.supplier.Name]
		for i, l := range of {
			if i == supplierLines && len(s.ledger.volumes) > 1 {
				lines = append(lines, template.HTML(count(len(of)-i, "line")+" more"))
				break
			}
			lines = append(lines, link(s.ledger.to(at, s.lineID(l)), s.sum(l.Amount)))
		}
		rows = append(rows, SumRow{Name: e.supplier.Name, Sum: s.sum(e.supplier.Sum), Lines: joined(lines, " + ")})
	}
	return rows
}

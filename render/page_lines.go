package render

import (
	"html/template"

	"guidecoat/journal"
	"guidecoat/journal/note"

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
	row := func(name, sum string, of func(journal.StageCosts) decimal.Decimal) SumRow {
		var lines []template.HTML
		for _, st := range c.Stages {
			if d := of(st); !d.IsZero() {
				href := ""
				if id := groupID(st.Name, name); listed[id] {
					href = "#" + id
				}
				lines = append(lines, link(href, s.stageName(st, st.Name)+" "+minus(s.sum(d))))
			}
		}
		return SumRow{categoryID(name), title(name), minus(sum), joined(lines, " + ")}
	}
	var list []SumRow
	for _, x := range c.Categories {
		list = append(list, row(x.Name, s.sum(x.Sum), func(st journal.StageCosts) decimal.Decimal { return st.Category(x.Name) }))
	}
	if !c.Credits.IsZero() {
		list = append(list, row("credits", s.sum(c.Credits.Neg()), func(st journal.StageCosts) decimal.Decimal { return st.Credits.Neg() }))
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
func lineGroup(l *journal.MoneyLine) (stage, category string) {
	stage, category = l.Stage, l.Category
	if stage == "" {
		stage = journal.Unstaged
	}
	if l.Credit {
		category = "credits"
	}
	return stage, category
}

// stageLines lists every line once, in the order of the table above it.
func (s *site) stageLines(at string) []StageLines {
	byGroup := map[string][]LineRow{}
	for _, l := range s.v.Money.Lines {
		id := groupID(lineGroup(l))
		byGroup[id] = append(byGroup[id], s.lineRow(at, l))
	}
	var list []StageLines
	for _, st := range s.v.Money.Costs.Stages {
		block := StageLines{ID: "_" + slug(st.Name), Name: s.stageName(st, st.Name), Sum: minus(s.sum(st.Net))}
		for _, category := range append(note.Categories[:len(note.Categories):len(note.Categories)], "credits") {
			id := groupID(st.Name, category)
			if rows := byGroup[id]; len(rows) > 0 {
				g := CategoryLines{ID: id, Name: title(category), Sum: s.sum(st.Category(category)), Rows: rows}
				if category == "credits" {
					g.Sum = minus(s.sum(st.Credits.Neg()))
				}
				block.Groups = append(block.Groups, g)
			}
		}
		if len(block.Groups) > 0 {
			list = append(list, block)
		}
	}
	return list
}

func (s *site) lineRow(at string, l *journal.MoneyLine) LineRow {
	id := s.lines[lineKey{l.Note, l.Line}]
	r := LineRow{ID: id, When: around(s.session(at, l.Session), shortWhen(l.Date)), Text: l.Description, Supplier: l.Supplier, Receipt: s.receipt(at, l.Note, l.Receipt),
		Amount: s.signed(l), Private: l.Private}
	r.Link = link(root(at)+"money.html#"+id, r.Amount)
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

func (s *site) supplierRows() []SumRow {
	lines := map[string][]template.HTML{}
	for _, l := range s.v.Money.Lines {
		if l.Supplier != "" && !l.Credit {
			lines[l.Supplier] = append(lines[l.Supplier], link("#"+s.lines[lineKey{l.Note, l.Line}], s.sum(l.Amount)))
		}
	}
	var list []SumRow
	for _, x := range s.v.Money.Costs.Suppliers {
		list = append(list, SumRow{Name: x.Name, Sum: s.sum(x.Sum), Lines: joined(lines[x.Name], " + ")})
	}
	return list
}

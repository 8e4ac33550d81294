package render

import (
	"guidecoat/journal"
	"guidecoat/journal/note"

	"github.com/shopspring/decimal"
)

type moneyPage struct {
	Frame
	Scope     string // what counts
	Plates    []Plate
	Chart     *Chart
	Matrix    Matrix
	Budgets   []BudgetRow
	Facts     []Fact // the forecast
	Sale      []Plate
	Suppliers []SumRow
	Groups    []StageLines
	NotListed string
}

// A Matrix is the costs by stage and category.
type Matrix struct {
	Columns []string
	Rows    []MatrixRow
	Foot    MatrixRow
}

// A MatrixRow is one stage. Cells are in the order of the columns; the sums before
// credits and after stand apart.
type MatrixRow struct {
	Name    Link
	Time    string
	Cells   []Link
	Credits Link
	Net     Link
}

// A BudgetRow is a stage against its budget.
type BudgetRow struct {
	Name, Net, Budget, Left, Over string
	Bar                           *BudgetBar
}

// A SumRow is a sum with the lines it adds up.
type SumRow struct {
	Name, Sum string
	Lines     []Link
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
	ID, Href        string
	Day             Day
	Session         Link
	Text            string
	Part            Link
	Supplier        string
	Receipt         Link
	Amount, Worked  string // the sum, and how it came about
	Category        string
	Credit, Private bool
}

func (s *site) hasMoney() bool {
	m := s.v.Money
	return m != nil && (!m.Costs.Spent.IsZero() || !m.Costs.Credits.IsZero() || m.Costs.Sold != nil || len(m.Lines) > 0)
}

func (s *site) moneySheets() []sheet {
	const at = "money.html"
	return one(s.hasMoney(), at, func() (any, error) {
		m := s.v.Money
		p := moneyPage{Frame: s.frame(at, "money", "Money", "What "+s.v.Name+" has cost, by stage and by category."), Plates: s.moneyPlates(), Matrix: s.matrix(),
			Facts: s.forecast(), Sale: s.sale()}
		p.Scope = "Every sum is in " + s.v.Currency.Code + " and counts what was spent on the work; the vehicle itself and the fees of buying and selling it are left out."
		if m.Whole {
			p.Scope = "Every sum is in " + s.v.Currency.Code + " and counts everything, the vehicle itself and all fees included."
			p.Budgets = s.budgets()
		}
		if m.LinesShown {
			p.Chart = s.runningChart()
			p.Groups = s.stageLines(at)
			if rest := m.NotListed(); !rest.IsZero() {
				p.NotListed = minus(s.sum(rest))
			}
		}
		p.Suppliers = s.supplierRows()
		return p, nil
	})
}

func (s *site) moneyPlates() []Plate {
	c := s.v.Money.Costs
	list := []Plate{{Label: "Spent", Value: s.sum(c.Spent)}}
	add := func(d decimal.Decimal, label, sign string) {
		if !d.IsZero() {
			list = append(list, Plate{Label: label, Value: sign + s.sum(d)})
		}
	}
	add(c.Credits, "Money back", "−")
	if !c.Credits.IsZero() {
		add(c.Net, "Net", "")
	}
	add(c.ToGarage, "Tools kept", "")
	add(c.SurchargeDue, "Surcharge to come", "")
	if c.Minutes > 0 {
		list = append(list, Plate{Label: "Work", Value: wholeHours(c.Minutes)})
	}
	return list
}

// Anchors of the page of money. They begin with an underscore, lines do not.

func (s *site) stageAnchor(stage string) string {
	if s.v.Money == nil || !s.v.Money.LinesShown {
		return "#_stages"
	}
	return "#_" + slug(stage)
}

func groupID(stage, category string) string { return "_" + slug(stage) + "_" + slug(category) }

func (s *site) matrix() Matrix {
	c := s.v.Money.Costs
	leads := s.v.Money.LinesShown
	m := Matrix{}
	for _, x := range c.Categories {
		m.Columns = append(m.Columns, title(x.Name))
	}
	link := func(d decimal.Decimal, href string, shown bool) Link {
		l := Link{}
		if !d.IsZero() {
			l.Text = minus(s.sum(d))
			if shown {
				l.Href = href
			}
		}
		return l
	}
	listed := s.listed()
	for _, st := range c.Stages {
		if st.Spent.IsZero() && st.Credits.IsZero() && st.Minutes == 0 {
			continue
		}
		row := MatrixRow{Name: Link{Text: title(st.Name)}, Net: link(st.Net, s.stageAnchor(st.Name), leads && listed[st.Name]),
			Credits: link(st.Credits.Neg(), "#"+groupID(st.Name, "credits"), listed[groupID(st.Name, "credits")])}
		if st.Minutes > 0 {
			row.Time = wholeHours(st.Minutes)
		}
		for _, column := range c.Categories {
			var sum decimal.Decimal
			for _, x := range st.Categories {
				if x.Name == column.Name {
					sum = x.Sum
				}
			}
			id := groupID(st.Name, column.Name)
			row.Cells = append(row.Cells, link(sum, "#"+id, listed[id]))
		}
		m.Rows = append(m.Rows, row)
	}
	m.Foot = MatrixRow{Name: Link{Text: "All stages"}, Net: link(c.Net, "", false), Credits: link(c.Credits.Neg(), "", false)}
	if c.Minutes > 0 {
		m.Foot.Time = wholeHours(c.Minutes)
	}
	for _, x := range c.Categories {
		m.Foot.Cells = append(m.Foot.Cells, link(x.Sum, "", false))
	}
	return m
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
		block := StageLines{ID: "_" + slug(st.Name), Name: title(st.Name), Sum: minus(s.sum(st.Net))}
		for _, category := range append(note.Categories[:len(note.Categories):len(note.Categories)], "credits") {
			id := groupID(st.Name, category)
			if rows := byGroup[id]; len(rows) > 0 {
				g := CategoryLines{ID: id, Name: title(category), Rows: rows}
				for _, x := range st.Categories {
					if x.Name == category {
						g.Sum = s.sum(x.Sum)
					}
				}
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
	r := LineRow{ID: id, Href: root(at) + "money.html#" + id, Day: shortDay(l.Date), Session: Link{Href: s.session(at, l.Session)}, Text: l.Description, Supplier: l.Supplier,
		Receipt: s.receipt(at, l.Note, l.Receipt), Amount: s.signed(l), Category: l.Category, Credit: l.Credit, Private: l.Private}
	if l.Part != "" {
		r.Part = Link{Text: l.Part, Href: s.id(at, l.Part)}
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
	lines := map[string][]Link{}
	for _, l := range s.v.Money.Lines {
		if l.Supplier != "" && !l.Credit {
			lines[l.Supplier] = append(lines[l.Supplier], Link{Text: s.sum(l.Amount), Href: "#" + s.lines[lineKey{l.Note, l.Line}]})
		}
	}
	var list []SumRow
	for _, x := range s.v.Money.Costs.Suppliers {
		list = append(list, SumRow{x.Name, s.sum(x.Sum), lines[x.Name]})
	}
	return list
}

package render

import (
	"html/template"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/state"

	"github.com/shopspring/decimal"
)

type moneyPage struct {
	Frame
	Scope      string // what counts
	Plates     []Plate
	Chart      *Chart
	Matrix     *Matrix // nil beyond the first page
	Budgets    []BudgetRow
	StillNeeds bool // some stage of the budgets does
	Forecast   []Plate
	Facts      []Fact // the forecast in full
	Sale       []Plate
	Categories []SumRow
	Suppliers  []SumRow
	Groups     []StageLines
	NotListed  string
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
	Name    string
	Time    string
	Cells   []template.HTML
	Credits template.HTML
	Net     template.HTML
}

// A BudgetRow is a stage against its budget.
type BudgetRow struct {
	Name, Net, Budget, Left, Over string
	Bar                           *BudgetBar
}

func (s *site) hasMoney() bool {
	m := s.v.Money
	return m != nil && (!m.Costs.Spent.IsZero() || !m.Costs.Credits.IsZero() || m.Costs.Sold != nil || len(m.Lines) > 0)
}

func (s *site) moneySheets() []sheet {
	return s.ledger.sheets(s.hasMoney(), func(v volume) (any, error) {
		at, m := v.path, s.v.Money
		p := moneyPage{Frame: s.frame(at, "money", v.heading("Money"), "What "+s.v.Name+" has cost, by stage and by category.")}
		p.Volumes = s.ledger.nav(at)
		p.Scope = "Every sum is in " + s.v.Currency.Code + " and counts what was spent on the work; the vehicle itself and the fees of buying and selling it are left out."
		if m.Whole {
			p.Scope = "Every sum is in " + s.v.Currency.Code + " and counts everything, the vehicle itself and all fees included."
		}
		if v.front {
			s.sums(&p)
		}
		p.Suppliers, p.Groups = s.supplierRows(at, s.ledger.in(v)), s.stageLines(at, s.ledger.in(v))
		if rest := m.NotListed(); m.LinesShown && !rest.IsZero() {
			p.NotListed = minus(s.sum(rest))
		}
		return p, nil
	})
}

// sums puts what stands before the suppliers and the lines on the page.
func (s *site) sums(p *moneyPage) {
	m := s.v.Money
	p.Plates, p.Matrix, p.Sale = s.moneyPlates(), s.matrix(), s.sale()
	p.Forecast, p.Facts = s.forecast()
	if m.Whole {
		p.Budgets = s.budgets()
		p.StillNeeds = slices.ContainsFunc(p.Budgets, func(b BudgetRow) bool { return b.Left != "" })
	}
	if m.LinesShown {
		p.Chart, p.Categories = s.runningChart(), s.categoryRows()
	}
}

func (s *site) moneyPlates() []Plate {
	c := s.v.Money.Costs
	list := []Plate{{Label: "Spent", Value: s.sum(c.Spent)}}
	add := func(d decimal.Decimal, label, sign, note string) {
		if !d.IsZero() {
			list = append(list, Plate{Label: label, Value: sign + s.sum(d), Note: note})
		}
	}
	add(c.Credits, "Money back", "−", "refunds, surcharges returned, spares and scrap sold")
	if !c.Credits.IsZero() {
		add(c.Net, "Net", "", "spent less money back")
	}
	add(c.ToGarage, "Kept in the garage", "", "tools, and shares of what other builds use too; not in the sums of this build")
	add(c.SurchargeDue, "Surcharge to come", "", "comes back when the old parts are returned")
	if c.Minutes > 0 {
		list = append(list, Plate{Label: "Work", Value: minutes(c.Minutes)})
	}
	return list
}

// Anchors of the page of money. They begin with an underscore, lines do not.

func (s *site) stageAnchor(stage string) string {
	if s.v.Money == nil || !s.v.Money.LinesShown {
		return "_stages"
	}
	return stageID(stage)
}

func stageID(stage string) string { return "_" + slug(stage) }

func groupID(stage, category string) string { return "_" + slug(stage) + "_" + slug(category) }

func (s *site) matrix() *Matrix {
	c := s.v.Money.Costs
	leads := s.v.Money.LinesShown
	m := &Matrix{}
	for _, x := range c.Categories {
		m.Columns = append(m.Columns, title(x.Name))
	}
	cell := func(d decimal.Decimal, anchor string, leads bool) template.HTML {
		if d.IsZero() {
			return ""
		}
		href := ""
		if leads {
			href = s.ledger.to(moneyFront, anchor)
		}
		return link(href, minus(s.sum(d)))
	}
	listed := s.listed()
	for _, st := range c.Stages {
		if st.Spent.IsZero() && st.Credits.IsZero() && st.Minutes == 0 {
			continue
		}
		row := MatrixRow{Name: s.stageName(st, st.Name), Net: cell(st.Net, s.stageAnchor(st.Name), leads && listed[st.Name]),
			Credits: cell(st.Credits.Neg(), groupID(st.Name, "credits"), listed[groupID(st.Name, "credits")])}
		if st.Minutes > 0 {
			row.Time = minutes(st.Minutes)
		}
		for _, column := range c.Categories {
			id := groupID(st.Name, column.Name)
			row.Cells = append(row.Cells, cell(st.Category(column.Name), id, listed[id]))
		}
		m.Rows = append(m.Rows, row)
	}
	m.Foot = MatrixRow{Name: "All stages", Net: cell(c.Net, "_lines", leads && len(listed) > 0), Credits: cell(c.Credits.Neg(), categoryID("credits"), leads)}
	if c.Minutes > 0 {
		m.Foot.Time = minutes(c.Minutes)
	}
	for _, x := range c.Categories {
		m.Foot.Cells = append(m.Foot.Cells, cell(x.Sum, categoryID(x.Name), leads))
	}
	return m
}

// stageName is a stage for people. Where the vehicle and its fees do not count, the
// stage they belong to says so, or its sum would pass for what they came to.
func (s *site) stageName(st state.StageCosts, name string) string {
	switch {
	case name == journal.Unstaged:
		return "No stage"
	case st.Stage != nil && st.Stage.Purchase && !s.v.Money.Whole:
		return title(name) + ", without vehicle and fees"
	}
	return title(name)
}

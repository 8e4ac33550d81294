package view

import (
	"guidecoat/journal"
	"slices"
)

// A rights is one row of the table of audiences: what one may see. The zero row shows
// nothing of what any audience is kept from, so one that the table lacks learns nothing.
type rights struct {
	private   bool // what is private is shown
	work      bool // sums of the work are shown
	whole     bool // and so is everything else about money
	lines     bool // and so is each line
	purchase  bool // what belongs to a stage of buying is shown
	hours     bool
	snagsSeen bool
	withheld  bool // grave snags that are private are told of by their severity
	suppliers bool
	receipts  bool
	by        bool
	contact   bool
	vin       string // masked, full; else it is not shown
	plate     bool
}

// audiences is the table, as the card's public settings make it.
var audiences = map[Audience]func(journal.Public) rights{
	ForPublic: func(p journal.Public) rights {
		whole := p.Money == "totals" || p.Money == "lines"
		return rights{work: p.Money != "nothing", whole: whole, lines: p.Money == "lines", purchase: whole,
			hours: p.Hours, snagsSeen: p.Snags, suppliers: p.Suppliers, vin: p.VIN, plate: p.Registration}
	},
	ForBuyer: func(journal.Public) rights {
		return rights{work: true, lines: true, hours: true, snagsSeen: true, withheld: true,
			suppliers: true, receipts: true, by: true, contact: true, vin: "full", plate: true}
	},
	ForWorkshop: func(journal.Public) rights {
		return rights{private: true, work: true, whole: true, lines: true, purchase: true, hours: true, snagsSeen: true,
			suppliers: true, receipts: true, by: true, contact: true, vin: "full", plate: true}
	},
}

// rightsOf reads the table.
func rightsOf(to Audience, p journal.Public) rights {
	if row := audiences[to]; row != nil {
		return row(p)
	}
	return rights{}
}

// KeptFrom are the audiences that see nothing of what is private.
func KeptFrom() []string {
	var kept []string
	for _, a := range Audiences {
		if !rightsOf(a, journal.Public{}).private {
			kept = append(kept, string(a))
		}
	}
	return kept
}

// ofPurchase tells whether a stage is one of buying, of which the audience sees nothing.
func (v *viewer) ofPurchase(stage string) bool {
	s := v.st.Build.StageNamed(stage)
	return !v.purchase && s != nil && s.Purchase
}

// moneySeen tells whether a line of money belongs to what the audience may see.
func (v *viewer) moneySeen(m *journal.Money) bool {
	return v.whole || v.work && !v.ofPurchase(m.Stage) && !v.hiddenRefund[m] && (m.Credit || ofTheWork(m))
}

// ofTheWork tells whether a cost is one of the work, not of the vehicle or its fees.
func ofTheWork(m *journal.Money) bool { return m.Category != "vehicle" && m.Category != "fees" }

// hideRefunds finds the refunds of costs that are not of the work: they name a part,
// or else somebody, all of whose costs are such. It cannot be told of any other.
func (v *viewer) hideRefunds() {
	hidden, shown := map[string]bool{}, map[string]bool{}
	for _, m := range v.st.Money {
		if m.Credit {
			continue
		}
		for _, key := range refundKeys(m) {
			if ofTheWork(m) {
				shown[key] = true
			} else {
				hidden[key] = true
			}
		}
	}
	v.hiddenRefund = map[*journal.Money]bool{}
	for _, m := range v.st.Money {
		if keys := refundKeys(m); m.Credit && m.Category == "refund" && len(keys) > 0 {
			v.hiddenRefund[m] = hidden[keys[0]] && !shown[keys[0]]
		}
	}
}

// refundKeys are what ties a refund to costs, the closest first.
func refundKeys(m *journal.Money) []string {
	var keys []string
	if m.Part != "" {
		keys = append(keys, "for "+m.Part)
	}
	if m.Supplier() != "" {
		keys = append(keys, "from "+m.Supplier())
	}
	return keys
}

// saleSeen tells whether the vehicle is sold and the audience may know.
func (v *viewer) saleSeen() bool { return v.st.Sale != nil && (v.private || !v.st.Sale.Private) }

// hide settles which ids the audience may not see: those of private snags, and of
// parts all of whose lines are private, with what follows from them.
func (v *viewer) hide() {
	if v.private {
		return
	}
	for _, p := range v.st.Parts {
		if !slices.ContainsFunc(p.Lines, func(l *journal.PartLine) bool { return !l.Private }) {
			v.hidden[p.ID], v.hidden[journal.SurchargeID(p.ID)] = true, true
		}
	}
	for _, s := range v.st.Snags {
		if s.Private {
			v.hidden[s.ID] = true
		}
	}
	delete(v.hidden, "") // several snags have no id
}

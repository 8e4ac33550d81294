package view

import (
	"guidecoat/journal"
	"slices"
)

// rules reads the audience table.
func (v *viewer) rules() {
	p := v.st.Build.Card.Public
	switch v.to {
	case ForWorkshop:
		v.private, v.work, v.whole, v.lines, v.hours, v.snagsSeen = true, true, true, true, true, true
		v.suppliers, v.receipts, v.by, v.vin, v.plate = true, true, true, "full", true
	case ForBuyer:
		v.work, v.lines, v.hours, v.snagsSeen = true, true, true, true
		v.suppliers, v.receipts, v.by, v.vin, v.plate = true, true, true, "full", true
	default:
		v.work = p.Money != "nothing"
		v.whole = p.Money == "totals" || p.Money == "lines"
		v.lines = p.Money == "lines"
		v.hours, v.snagsSeen, v.suppliers, v.vin, v.plate = p.Hours, p.Snags, p.Suppliers, p.VIN, p.Registration
	}
}

// moneySeen tells whether a line of money belongs to what the audience may see.
func (v *viewer) moneySeen(m *journal.Money) bool {
	return v.whole || v.work && !v.hiddenRefund[m] && (m.Credit || ofTheWork(m))
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

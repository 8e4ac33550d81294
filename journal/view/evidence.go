package view

import (
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
)

// Evidence is what stands behind a thing besides the builder's word.
type Evidence string

const (
	Said         Evidence = "said"
	Photographed Evidence = "photographed"
	Measured     Evidence = "measured"
	Papered      Evidence = "paper"
)

// Grades are all evidence there is, the weakest first, with what it means to a reader.
var Grades = []struct {
	Evidence
	Name, Means string
}{
	{Said, "said", "the builder wrote it down, and nothing else here shows it"},
	{Photographed, "photographed", "a picture stands with it"},
	{Measured, "measured", "a value with its unit, a tightening torque, or what a control unit said"},
	{Papered, "somebody else’s paper", "a certificate, an invoice, a receipt or another file that is attached"},
}

// Name is what people read; "" where there is nothing to show.
func (e Evidence) Name() string {
	for _, g := range Grades {
		if g.Evidence == e {
			return g.Name
		}
	}
	return ""
}

// Grade is the best evidence of a thing, by what the notes hold with it.
func Grade(picture, value, paper bool) Evidence {
	switch {
	case paper:
		return Papered
	case value:
		return Measured
	case picture:
		return Photographed
	}
	return Said
}

// grade settles the evidence of every check, part and fix, by what is shown with it.
func (v *View) grade() {
	invoiced := map[[2]string]bool{}
	if v.Money != nil {
		for _, l := range v.Money.Lines {
			if l.Receipt != "" && !l.Credit {
				invoiced[[2]string{l.Session, l.Supplier}] = true
			}
		}
	}
	checks := map[[2]string]Evidence{} // the last of a name in a session
	for _, c := range v.Checks {
		official := c.Inspection && (c.By != "" || c.Until != 0 || len(c.Photos) > 0)
		invoice := c.By != "" && invoiced[[2]string{c.Session, c.By}]
		c.Evidence = Grade(len(c.Photos) > 0, false, c.Receipt != "" || official || invoice)
		checks[[2]string{c.Session, c.Name}] = c.Evidence
		if c.Inspection {
			checks[[2]string{c.Session}] = c.Evidence
		}
	}
	for _, p := range v.Parts {
		if p.Fitted() { // a receipt shows that it was bought, not what was done with it
			p.Evidence = Grade(slices.ContainsFunc(p.Events, func(e PartEvent) bool { return fact.Reached(e.State, "fitted") && len(e.Photos) > 0 }), false, false)
		}
	}
	for _, x := range v.Snags {
		if x.Open || x.Source == fact.FromSurcharge || x.Source == fact.FromPaper {
			continue
		}
		var by EventView
		for _, e := range x.Events {
			if e.What == fact.Cleared {
				by = e
			}
		}
		settled := checks[[2]string{by.Session, x.ID}]
		if x.Source == fact.FromInspection && !by.Ticked {
			settled = checks[[2]string{by.Session}]
		}
		if p := v.parts[x.of]; p != nil && x.Source == fact.FromDamage {
			settled = p.Evidence
		}
		measured := x.Source == fact.FromReading || x.Source == fact.FromScan || x.Source == fact.FromFastener || settled == Measured
		x.Evidence = Grade(by.Pictured || settled == Photographed, measured, by.Attached || settled == Papered)
	}
}

// systemsTold are the systems of the vehicle that something is told of.
func (v *View) systemsTold() map[string]bool {
	told := map[string]bool{}
	add := func(list ...string) {
		for _, s := range list {
			told[s] = true
		}
	}
	for _, d := range v.Damage {
		add(d.Systems...)
	}
	for _, x := range v.Sessions {
		add(x.System)
	}
	for _, x := range v.Parts {
		add(x.Systems...)
	}
	for _, x := range v.Snags {
		add(x.System)
	}
	for _, x := range v.Checks {
		add(x.System)
		add(x.covers...)
	}
	for _, x := range v.Readings {
		add(x.System)
	}
	for _, x := range v.Scans {
		add(note.SystemOfUnit(x.Unit))
	}
	return told
}

// Unopened are the systems of which nothing is told; high voltage only where the vehicle has it.
func (v *View) Unopened() []string {
	told := v.systemsTold()
	const rare = "high-voltage"
	return slices.DeleteFunc(slices.Clone(note.Systems), func(s string) bool { return told[s] || s == rare && !slices.Contains(v.equipment, rare) })
}

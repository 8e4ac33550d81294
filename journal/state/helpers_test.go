package state

import (
	"fmt"
	"io/fs"
	"os"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/trial"

	"github.com/shopspring/decimal"
)

// sums shows costs as "spent/credits/net/garage".
func sums(c *fact.Costs) string {
	m := exact
	return m(c.Spent) + "/" + m(c.Credits) + "/" + m(c.Net) + "/" + m(c.ToGarage)
}

// named shows sums under names as "parts 12.00, paint 3.00".
func named(b *journal.Build, list []fact.NamedSum) string {
	var out []string
	for _, n := range list {
		out = append(out, n.Name+" "+b.FormatMoney(n.Sum))
	}
	return strings.Join(out, ", ")
}

// stagesOf shows the stages' figures as "rear axle 5.00-1.00 60min, …".
func stagesOf(c *fact.Costs) string {
	var out []string
	for _, s := range c.Stages {
		out = append(out, fmt.Sprintf("%s %s-%s %dmin", s.Name, exact(s.Spent), exact(s.Credits), int(s.Minutes)))
	}
	return strings.Join(out, ", ")
}

// exact is a sum with two digits.
func exact(d decimal.Decimal) string { return d.StringFixed(2) }

// snagsOf shows the snags of a source as "id open major opened..cleared |words|".
func snagsOf(st *State, from fact.Source) []string {
	list := []string{}
	for _, s := range st.Snags {
		if s.Source != from {
			continue
		}
		state := "open"
		if !s.Open {
			state = "cleared"
		}
		cleared := s.Cleared.String()
		if s.Undated {
			cleared = "?"
		}
		list = append(list, fmt.Sprintf("%s %s %s %s %s..%s |%s|", s.ID, s.Kind, state, s.Severity, s.Opened, cleared, s.Words))
	}
	return list
}

// exampleBuild reads the example. Where it is not there the test is skipped.
func exampleBuild(t *testing.T) (fs.FS, *journal.Build) {
	t.Helper()
	fsys := os.DirFS("../../example-build")
	if _, err := fs.Stat(fsys, journal.CardName); err != nil {
		t.Skip("no example-build")
	}
	return fsys, trial.CompileFS(t, fsys, ".")
}

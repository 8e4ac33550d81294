package check

import (
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

// fixed is a build with a fix carried out in it.
func fixed(t *testing.T, fsys fstest.MapFS, fix *source.Fix) fstest.MapFS {
	t.Helper()
	p, typed := fix.Span.File.Path, fix.Span.TypedRange()
	data := string(fsys[p].Data)
	if strings.HasPrefix(data, "\ufeff") {
		t.Fatal("a byte order mark")
	}
	after := fstest.MapFS{}
	for name, f := range fsys {
		after[name] = f
	}
	after[p] = &fstest.MapFile{Data: []byte(data[:typed.Start] + fix.Text + data[typed.End:])}
	return after
}

// TestFixes carries out every fix of every bad example: the problem is then gone, and no
// error has come in its place.
func TestFixes(t *testing.T) {
	fixes := 0
	for _, c := range All {
		bad, _ := c.Examples()
		before := folder(bad)
		for _, p := range proofread(t, before) {
			if p.Fix == nil {
				continue
			}
			fixes++
			mends(t, before, p)
		}
	}
	for _, h := range helpCases {
		before := folder(h.note)
		for _, p := range proofread(t, before) {
			if p.Fix != nil {
				fixes++
				mends(t, before, p)
			}
		}
	}
	if fixes < 50 {
		t.Errorf("only %d fixes were tried", fixes)
	}
}

func mends(t *testing.T, before fstest.MapFS, p problem.Problem) {
	t.Helper()
	count := func(problems []problem.Problem) (same, errors int) {
		for _, q := range problems {
			if q.Check == p.Check {
				same++
			}
			if q.Severity == problem.Error {
				errors++
			}
		}
		return same, errors
	}
	after := fixed(t, before, p.Fix)
	same, errors := count(proofread(t, before))
	sameLeft, errorsLeft := count(proofread(t, after))
	if sameLeft >= same || errorsLeft > errors {
		t.Errorf("%safter its fix:\n%s", printed(t, []problem.Problem{p}), printed(t, proofread(t, after)))
	}
}

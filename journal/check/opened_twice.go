package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var openedTwice = &Check{
	Name:     journal.OpenedTwice,
	Severity: problem.Error,
	Summary:  "a snag that is opened while it is open",
	Explain: "Two snags under one id would be cleared by one tick. " +
		"Leave the kind out if this is a remark on the first, or choose another id if it is something else.",
	Bad:  "---\nstage: rear axle\n---\n- [ ] job arch-seal: seal the seam\n- [ ] job arch-seal: seal the seam on the right too\n",
	Good: "---\nstage: rear axle\n---\n- [ ] job arch-seal: seal the seam\n- [ ] arch-seal: the seam on the right too\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " is already open, since " + place(f.Other), f.Help
	},
}

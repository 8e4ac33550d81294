package check

import "guidecoat/journal/problem"

var outsideBuild = &Check{
	Name: "outside-build", Severity: problem.Warning,
	Summary: "a picture, link or receipt outside the build's folder",
	Explain: "Only files in the build's own folder are published, so that nothing else on your computer can ever get onto a page. " +
		"Copy the file into the build.",
	Example: "wrong|[the test sheet](../mail/test.md)\nright|-- 2026-04-11.md --\nright|[the test sheet](papers/test.md)\nright|-- papers/test.md --\nright|---\nright|page: The test sheet\nright|---\n",
	Run: func(p *Pass) {
		for _, r := range p.named() {
			if !r.number && r.where == outside {
				p.Report(r.at, quote(r.target)+" is outside the build's folder and is not published", "Copy the file into the build.")
			}
		}
	},
}

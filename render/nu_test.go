package render

import (
	"maps"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render/place"
	"guidecoat/themes"
)

// nu is the command of the Nu HTML checker, nil where it is not there: "vnu" on the
// path, or Java with the vnu.jar that VNU_JAR names, as in the npm package vnu-jar.
func nu() []string {
	if exe, err := exec.LookPath("vnu"); err == nil {
		return []string{exe}
	}
	java, err := exec.LookPath("java")
	if jar := os.Getenv("VNU_JAR"); err == nil && jar != "" {
		return []string{java, "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xss8m", "-jar", jar} // it does not run for long
	}
	return nil
}

// unheard are messages that are mistaken here.
var unheard = map[string]string{
	"violates Content Security Policy": "from a folder \"self\" is nothing to the checker, and it takes a block of data for a script; what a browser makes of the policy, TestInTheBrowser sees",
	"“paint-order”":                    "newer than its list of CSS",
	"“container-type”":                 "newer than its list of CSS",
	"“@container”":                     "newer than its list of CSS",
	"“rx”":                             "a property of SVG 2, which its list of CSS lacks",
}

// The Nu checker finds neither an error nor a warning in any sort of page, with words that
// try to be markup too, or in the style of any theme. It is asked once, as it begins slowly.
func TestNuFindsNothing(t *testing.T) {
	command := nu()
	if command == nil {
		t.Skip("skipped: no Nu HTML checker here; install vnu, or name its vnu.jar in VNU_JAR")
	}
	b, err := journal.ReadBuild(hostileBuild(t), ".")
	if err != nil {
		t.Fatal(err)
	}
	sites := exampleSites(t)
	sites["hostile, "+themes.Default] = siteOfView(t, hostileBuild(t), b, view.Of(state.At(b, 0, today), view.ForWorkshop))
	var all []place.File
	seen := map[string]bool{} // all sites of a theme have its style
	for name, files := range sites {
		pages := slices.Collect(maps.Values(kinds(files)))
		for _, f := range files {
			whole := strings.HasSuffix(name, ", "+themes.Default) && slices.ContainsFunc(pages, func(p place.File) bool { return p.Path == f.Path }) || isPage(f) && strings.HasPrefix(name, "hostile")
			if (whole || f.Path == "index.html" || f.Path == "style.css" || f.Path == recordStyle) && !seen[string(f.Data)] {
				seen[string(f.Data)] = true
				f.Path = strings.NewReplacer(",", "", " ", "-", "'", "").Replace(name) + "/" + f.Path
				all = append(all, f)
			}
		}
	}
	pattern := ".*(" + strings.Join(slices.Collect(maps.Keys(unheard)), "|") + ").*"
	args := append(command[1:len(command):len(command)], "--also-check-css", "--skip-non-html", "--filterpattern", pattern, writeSite(t, all))
	if out, err := exec.Command(command[0], args...).CombinedOutput(); err != nil || len(out) > 0 {
		t.Errorf("%v\n%s", err, out[:min(len(out), 4000)])
	}
}

package render

import (
	"os"
	"os/exec"
	"testing"
)

// nu is the command of the Nu HTML checker, nil where it is not there: "vnu" on the
// path, or Java with the vnu.jar that VNU_JAR names, as in the npm package vnu-jar.
func nu() []string {
	if exe, err := exec.LookPath("vnu"); err == nil {
		return []string{exe}
	}
	java, err := exec.LookPath("java")
	if jar := os.Getenv("VNU_JAR"); err == nil && jar != "" {
		return []string{java, "-jar", jar}
	}
	return nil
}

// unheard are messages that are mistaken here. From a folder "self" is nothing to the
// checker, and it takes a block of data for a script: what a browser makes of the
// policy is for TestInTheBrowser to see. And paint-order is newer than its list of CSS.
const unheard = `.*(violates Content Security Policy|“paint-order”).*`

// The Nu checker finds neither an error nor a warning in any page or style.
func TestNuFindsNothing(t *testing.T) {
	command := nu()
	if command == nil {
		t.Skip("skipped: no Nu HTML checker here; install vnu, or name its vnu.jar in VNU_JAR")
	}
	for name, files := range exampleSites(t) {
		dir := writeSite(t, files)
		args := append(command[1:len(command):len(command)], "--also-check-css", "--skip-non-html", "--filterpattern", unheard, dir)
		if out, err := exec.Command(command[0], args...).CombinedOutput(); err != nil || len(out) > 0 {
			t.Errorf("%s: %v\n%s", name, err, out[:min(len(out), 4000)])
		}
	}
}

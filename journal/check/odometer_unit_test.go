package check

import "testing"

// What is said of odometers in several notes, and of checks at a distance.
func TestOdometers(t *testing.T) {
	note := func(day, words string) string {
		return "-- 2026-04-" + day + ".md --\n---\nstage: body\n" + words + "---\n"
	}
	at := func(distance string) string { return "checks:\n  lamp-aim: done; at " + distance + "\n" }
	first := note("01", "odometer: 91252 mi\n")
	for _, c := range []struct{ check, notes, want string }{
		{"odometer-unit", first + note("02", "odometer: 160000 km\n"), `"160000 km" is in another unit than 2026-04-01.md:3:11`},
		{"odometer-unit", first + note("02", at("146900 km")), "Write it in mi, as 91279 mi, or"},
		{"odometer-unit", first + note("02", "odometer: 91260 miles\n"+at("91261 mi")), ""},
		{"odometer-unit", first + note("02", "odometer: 12 km; new cluster\n") + note("03", "odometer: 15 km\n"), ""},
		{"odometer-unit", first + note("02", "odometer: 12 km; new cluster\n") + note("03", "odometer: 15 mi\n"), "Write it in km"},
		{"odometer-unit", note("01", at("80 km")) + note("02", "odometer: 91260 mi\n"), ""},
		{"odometer-backwards", first + note("02", at("80000 mi")), `"80000 mi" is less than 91252 mi at 2026-04-01.md:3:11`},
		{"odometer-backwards", first + note("02", "odometer: 91300 mi\n"+at("9126 mi")), "Write what the odometer read when"},
		{"odometer-backwards", first + note("02", "odometer: 91300 mi\n"+at("91290 mi")), ""}, // on the way there
		{"odometer-backwards", first + note("02", at("91252 mi")), ""},
		{"odometer-backwards", first + note("02", "odometer: 2 mi; new cluster\n"+at("91253 mi")) + note("03", at("5 mi")), ""},
		{"odometer-backwards", first + note("02", "odometer: 2 mi; new cluster\n"+at("1 mi")), ""},
		{"odometer-backwards", note("01", at("80000 mi")) + note("02", "odometer: 91260 mi\n"), ""},
	} {
		wantOf(t, c.check, c.notes, c.want)
	}
}

func TestDisclosedUnseen(t *testing.T) {
	open := "-- 2026-04-01.md --\n---\nstage: body\n---\n- [ ] job door-scratch: scratch; "
	private := "-- 2026-04-02.md --\n---\nstage: body\nprivate: yes\n---\n"
	for notes, want := range map[string]string{
		open + "disclose; private\n":                                            "since it is private",
		open + "minor\n" + private + "- [ ] door-scratch: x; disclose\n":        "since its note is private",
		open + "disclose\n" + private + "- [ ] door-scratch: worse\n":           "", // words alone hide nothing
		open + "disclose; private\n" + private + "- [x] door-scratch: mended\n": "",
		open + "private\n": "",
	} {
		wantOf(t, "disclosed-unseen", notes, want)
	}
}

package check

import (
	"fmt"
	"testing"
)

// Each name of equipment that the trade uses is told, with the one that turns checks on,
// unless that one is there too.
func TestEquipmentInOtherWords(t *testing.T) {
	const card = "-- build.md --\n---\nbuild: Halden\ncurrency: GBP\nvehicle:\n  equipment: %s\n---\n-- 2026-04-01.md --\nWords.\n"
	for typed, meant := range map[string]string{
		"adaptive cruise": "radar", "ESP": "stability control", "esc": "stability control", "TPMS": "tyre sensors", "tyre pressure warning": "tyre sensors",
		"mild hybrid": "high-voltage", "EV": "high-voltage", "phev": "high-voltage", "electric drive": "high-voltage", "traction battery": "high-voltage",
		"front camera": "camera", "cameras": "camera", "high voltage": "high-voltage", "stability  controll": "stability control", "Radars": "radar",
	} {
		wantOf(t, "near-equipment", fmt.Sprintf(card, "sun roof, "+typed+", seats"), "no checks follow from "+quote(typed))
		wantOf(t, "near-equipment", fmt.Sprintf(card, typed+", "+meant), "")
		wantOf(t, "near-equipment", fmt.Sprintf(card, meant), "")
	}
	for _, words := range []string{"sun roof", "seven seats", "clever key", "escort pack", "cameo trim"} {
		wantOf(t, "near-equipment", fmt.Sprintf(card, words), "")
	}
}

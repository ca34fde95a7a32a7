package fit

import (
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
)

// Way is what a check is done with.
type Way string

const (
	ByEye     Way = "eye"
	ByCount   Way = "count"
	ByMark    Way = "casting mark"
	ByNumber  Way = "number read"
	ByMagnet  Way = "magnet"
	ByTape    Way = "tape"
	ByCaliper Way = "caliper"
	ByGauge   Way = "thread gauge"
	ByTrying  Way = "trying it on"
)

// Ways lists what checks are done with, the least effort first.
var Ways = []Way{ByEye, ByCount, ByMark, ByNumber, ByMagnet, ByTape, ByCaliper, ByGauge, ByTrying}

// Bare lists the ways that need nothing but eyes and hands.
var Bare = []Way{ByEye, ByCount, ByMark, ByNumber}

// effort ranks ways, 1 for the least.
func (w Way) effort() int {
	if i := slices.Index(Ways, w); i >= 0 {
		return i + 1
	}
	return len(Ways) + 1
}

// Proof is what a check of this way proves.
func (w Way) Proof() fieldkit.Evidence {
	switch w {
	case ByCount, ByTape, ByCaliper, ByGauge:
		return fieldkit.Measured
	case ByMark, ByNumber:
		return fieldkit.NumberRead
	case ByTrying:
		return fieldkit.TestFitted
	}
	return fieldkit.Seen
}

// WayOf reads a way as people write it: "by eye", "counted", "calliper"; ok is false
// for a word it does not know.
func WayOf(text string) (w Way, ok bool) {
	words := strings.TrimPrefix(strings.ToLower(strings.TrimSpace(text)), "by ")
	if slices.Contains(Ways, Way(words)) {
		return Way(words), true
	}
	for _, known := range []struct {
		has string
		way Way
	}{
		{"eye", ByEye}, {"look", ByEye}, {"seen", ByEye}, {"count", ByCount}, {"cast", ByMark}, {"read", ByNumber}, {"stamp", ByNumber}, {"standard", ByNumber},
		{"magnet", ByMagnet}, {"tape", ByTape}, {"rule", ByTape}, {"caliper", ByCaliper}, {"calliper", ByCaliper}, {"vernier", ByCaliper}, {"micro", ByCaliper},
		{"gauge", ByGauge}, {"try", ByTrying}, {"screw", ByTrying}, {"fit", ByTrying},
	} {
		if strings.Contains(words, known.has) {
			return known.way, true
		}
	}
	return "", false
}

// wayOfAttribute says what an attribute of a kind is checked with.
func wayOfAttribute(a Attribute) Way {
	if a.Dim == fieldkit.DimCount {
		return ByCount
	}
	_, tool := a.usually()
	w, _ := WayOf(tool)
	return w
}

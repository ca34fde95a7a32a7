package lookup

import (
	"strings"

	"trailfieldkit/fieldkit/standards"
)

// tradeNames are what people at a counter call the kinds of designations, beside the
// name of the kind itself (common practice).
var tradeNames = map[standards.Kind][]string{
	standards.KindBall:         {"deep groove bearing", "sealed bearing", "roller bearing"},
	standards.KindRoller:       {"roller bearing", "straight roller"},
	standards.KindNeedle:       {"needle bearing", "needle roller bearing", "roller bearing"},
	standards.KindTaperMetric:  {"taper roller bearing", "wheel bearing", "cone and cup", "bearing race"},
	standards.KindTaperInch:    {"taper roller bearing", "wheel bearing", "cone and cup", "bearing race", "bearing set"},
	standards.KindORing:        {"o ring", "rubber ring", "dash"},
	standards.KindSeal:         {"oil seal", "lip seal", "grease seal", "rotary seal", "wheel seal"},
	standards.KindInchThread:   {"bolt", "nut", "screw", "stud", "fine coarse"},
	standards.KindMetricThread: {"bolt", "nut", "screw", "stud", "fine coarse"},
	standards.KindPipeThread:   {"taper pipe", "fitting"},
	standards.KindBolt:         {"screw", "class", "fastener"},
	standards.KindFitting:      {"flare", "degree", "line nut", "tube nut", "double flare", "coupling", "adapter"},
	standards.KindHose:         {"line", "tube"},
	standards.KindTyre:         {"tyre size"},
	standards.KindWheel:        {"bolt pattern", "lug pattern", "stud pattern", "wheel pattern", "PCD", "rim"},
	standards.KindBelt:         {"serpentine belt", "drive belt", "fan belt", "poly v belt"},
	standards.KindUJoint:       {"u joint", "uni joint", "cross kit", "joint", "series"},
	standards.KindSpline:       {"splines", "axle shaft", "half shaft"},
	standards.KindBattery:      {"BCI group", "battery size", "car battery"},
	standards.KindFuse:         {"blade fuse", "amp", "ampere"},
	standards.KindWire:         {"cable", "gauge"},
	standards.KindFriction:     {"brake lining", "edge code", "brake pad"},
	standards.KindGearOil:      {"diff oil", "differential oil", "hypoid oil", "axle oil", "gear lube"},
	standards.KindGrease:       {"lube", "chassis grease", "wheel bearing grease"},
	standards.KindBrakeFluid:   {"clutch fluid"},
	standards.KindVIN:          {"VIN", "chassis number"},
	standards.KindGTIN:         {"barcode", "UPC", "EAN", "GTIN"},
}

// TradeNames gives what people at a counter call a kind of designation, beside its
// name.
func TradeNames(kind standards.Kind) []string { return tradeNames[kind] }

// tradeWords gives the kinds that each word may stand for.
var tradeWords = func() map[string]map[standards.Kind]bool {
	words := map[string]map[standards.Kind]bool{}
	for kind, names := range tradeNames {
		for _, name := range append([]string{string(kind)}, names...) {
			for _, w := range split(name) {
				if len(w.text) < 3 {
					continue
				}
				text := singular(w.text)
				if words[text] == nil {
					words[text] = map[standards.Kind]bool{}
				}
				words[text][kind] = true
			}
		}
	}
	return words
}()

// withoutTradeWords takes the words for a kind off a query: "35x62x14 seal" is
// 35x62x14 as a shaft seal. It gives "" if there are none, or nothing else.
func withoutTradeWords(q query) (rest string, kinds map[standards.Kind]bool) {
	var b strings.Builder
	at := 0
	for _, w := range q.words {
		of, is := tradeWords[singular(w.text)]
		if !is {
			continue
		}
		if kinds == nil {
			kinds = map[standards.Kind]bool{}
			for k := range of {
				kinds[k] = true
			}
		}
		for k := range kinds {
			if !of[k] {
				delete(kinds, k)
			}
		}
		b.WriteString(q.text[at:w.start])
		at = w.end
	}
	if kinds == nil {
		return "", nil
	}
	b.WriteString(q.text[at:])
	return strings.TrimSpace(b.String()), kinds
}

package measure

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// Hoses and tubes in use (common practice).
const (
	hoseOff   = 400 * um // rubber is not round
	swollen   = 1 * mm   // softened and stretched over its barb
	tubeOff   = 100 * um
	tubeScrew = 100 * um // chased and dented tubes
)

var fitting = Kind{
	Name: "fitting", Aliases: []string{"fluid fitting", "hydraulic fitting", "brake fitting", "flare nut", "tube nut"},
	Title: "Tube and hose fittings",
	Attributes: []Attribute{
		{
			Name: "thread_od", Aliases: []string{"od", "thread", "diameter", "nominal", "thread diameter", "outside diameter"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "over the male thread; of a female one the screw that goes in",
			Wear: Spread{wornThread, 0}, spread: boltUnder,
			of: func(p part) (fieldkit.Value, bool) {
				if v, ok := p.dim("thread_od"); ok {
					return v, true
				}
				return p.dim("nominal") // of a pipe thread
			},
		},
		pitchAttributes[0],
		pitchAttributes[1],
		{
			Name: "tube", Aliases: []string{"tube od", "line", "pipe"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "over the tube or line that goes in",
			Wear: Spread{tubeScrew, 0}, spread: evenly(tubeOff, tubeOff),
		},
		{
			Name: "seat", Aliases: []string{"seal", "flare", "angle", "sealing"}, Dim: fieldkit.DimText, Tool: Eye,
			How: "what seals: a 37 degree flare, a 45 degree flare, an O-ring, a bubble, a cone, washers, or the taper of the thread",
			of: func(p part) (fieldkit.Value, bool) {
				if t, ok := p.Designation.(standards.PipeThread); ok {
					text := "taper thread"
					if t.Form == "G" {
						text = "washer or O-ring"
					}
					return fieldkit.Value{Dim: fieldkit.DimText, Text: text}, true
				}
				return p.dim("seat")
			},
		},
	},
	candidates: func(h *standards.Handbook, r []reading) []standards.Designation {
		all := h.Listed(standards.KindFitting)
		for _, d := range h.Listed(standards.KindPipeThread) {
			if f := d.(standards.PipeThread).Form; f == "NPT" || f == "G" || f == "R" {
				all = append(all, d)
			}
		}
		return all
	},
}

var hose = Kind{
	Name: "hose", Aliases: []string{"fuel hose", "hydraulic hose", "heater hose"},
	Title: "Hoses by bore and use",
	Attributes: []Attribute{
		{
			Name: "bore", Aliases: []string{"id", "inside diameter", "inside"}, Dim: fieldkit.DimLength, Tool: Caliper,
			How:  "inside the cut end, or over the barb it fits on",
			Wear: Spread{0, swollen}, spread: evenly(hoseOff, hoseOff),
		},
		{
			Name: "use", Aliases: []string{"for", "fluid", "carries"}, Dim: fieldkit.DimText, Tool: Eye,
			How: "what it carries: fuel, brake fluid, power steering pressure or return, coolant to the heater, hydraulic oil",
			same: map[string][]string{
				"fuel": {"fuel hose"}, "heater": {"heater hose"}, "coolant": {"heater hose"}, "brake": {"brake hose", "PTFE brake hose"},
				"steering": {"power steering pressure hose", "power steering return hose"}, "hydraulic": {"hydraulic hose", "100R5 hose"},
			},
		},
	},
	candidates: listed(standards.KindHose),
}

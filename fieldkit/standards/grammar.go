package standards

import (
	"strings"
	"sync"
)

// grammar reads one kind of designation.
type grammar struct {
	kind   Kind
	read   func(text string, quiet bool) (Designation, *Misread)
	listed func() []Designation   // what the tables hold; nil if the kind goes by rule
	names  func() names           // what they are called, to compare
	bare   func(text string) bool // the text says too little to be sure of the kind
}

// of makes a grammar of the function that reads it.
func of[D Designation](kind Kind, read func(*scan) (D, *Misread), listed []D, bare func(string) bool) grammar {
	g := grammar{kind: kind, bare: bare, read: func(text string, quiet bool) (Designation, *Misread) {
		d, m := parseWhole(text, quiet, read)
		if m != nil {
			m.Kind = kind
			return nil, m
		}
		return d, nil
	}}
	if len(listed) > 0 {
		g.listed = func() []Designation {
			all := make([]Designation, len(listed))
			for i, d := range listed {
				all[i] = d
			}
			return all
		}
		g.names = sync.OnceValue(func() names { return namesOf(g.listed()) })
	}
	return g
}

// allGrammars lists the grammars in the order of the kinds.
func (h *Handbook) allGrammars() []grammar {
	return []grammar{
		of(KindBall, h.readBall, h.balls.all, nil),
		of(KindRoller, h.readRoller, h.rollers.all, nil),
		of(KindNeedle, h.readNeedle, h.needles.all, nil),
		of(KindTaperMetric, h.readTaperMetric, h.tapers.all, nil),
		of(KindTaperInch, h.readTaperInch, append(h.sets.all[:len(h.sets.all):len(h.sets.all)], h.halves.all...), shortNumber),
		of(KindORing, h.readORing, h.orings.all, shortNumber),
		of(KindSeal, h.readSeal, h.seals.all, nil),
		of(KindInchThread, h.readInchThread, h.inchThreads.all, nil),
		of(KindMetricThread, h.readMetricThread, h.metricThreads.all, noLetter),
		of(KindPipeThread, h.readPipeThread, h.pipeThreads.all, nil),
		of(KindBolt, h.readBolt, h.bolts.all, nil),
		of(KindFitting, h.readFitting, h.fittings.all, shortNumber),
		of(KindHose, h.readHose, h.hoses.all, nil),
		of(KindTyre, h.readTyre, nil, nil),
		of(KindWheel, h.readWheel, h.wheels.all, nil),
		of(KindBelt, h.readBelt, nil, nil),
		of(KindUJoint, h.readUJoint, h.ujoints.all, shortNumber),
		of(KindSpline, h.readSpline, h.splines.all, nil),
		of(KindBattery, h.readBattery, h.batteries.all, shortNumber),
		of(KindFuse, h.readFuse, h.fuses.all, nil),
		of(KindWire, h.readWire, h.wires.all, nil),
		of(KindFriction, h.readFriction, nil, shortNumber),
		of(KindGearOil, h.readGearOil, h.gearOilsListed(), shortNumber),
		of(KindGrease, h.readGrease, h.greasesListed(), nil),
		of(KindBrakeFluid, h.readBrakeFluid, h.fluids.all, nil),
		of(KindVIN, h.readVIN, nil, nil),
		of(KindGTIN, h.readGTIN, nil, nil),
		of(KindGTIN, h.readUPCE, nil, nil),
	}
}

func (h *Handbook) gearOilsListed() (list []GearOil) {
	for _, grade := range keys(h.gearOils) {
		if g, m := parseWhole("SAE "+grade, true, h.readGearOil); m == nil {
			list = append(list, g)
		}
	}
	return list
}

func (h *Handbook) greasesListed() (list []Grease) {
	for _, number := range keys(h.greases) {
		list = append(list, h.greases[number])
	}
	return list
}

// shortNumber reports a text of no more than four characters: it may be the name of
// anything.
func shortNumber(text string) bool { return len([]rune(text)) <= shortest }

const shortest = 4

// noLetter reports a text of figures and signs only.
func noLetter(text string) bool {
	return !strings.ContainsAny(strings.ToUpper(text), "ABCDEFGHIJKLMNOPQRSTUVW")
}

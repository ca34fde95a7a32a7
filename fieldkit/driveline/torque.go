package driveline

import (
	"math"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// gravity is standard gravity in m/s², ISO 80000-3.
const gravity = 9.80665

// reduction is the product of ratios; ok is false if one that is needed is not known.
func reduction(ratios ...fieldkit.Value) (product float64, ok bool) {
	product = 1
	for _, r := range ratios {
		if r.Dim != fieldkit.DimCount || r.Base <= 0 {
			return 0, false
		}
		product *= number(r)
	}
	return product, true
}

// number is a bare number; counts are kept in millionths.
func number(v fieldkit.Value) float64 { return float64(v.Base) / 1e6 }

// atTransferCase is the torque the engine puts into a drive shaft in low range and the
// lowest gear, in N·m: engine × gear × converter at stall × transfer case. With low
// range engaged front and rear are locked together, and one of the two may take all
// of it. What is not known is named.
func atTransferCase(d fieldkit.Driveline) (nm float64, missing []string) {
	stall := d.Stall
	if stall.IsZero() {
		stall = fieldkit.Value{Dim: fieldkit.DimCount, Base: 1_000_000} // a clutch adds nothing
	}
	for _, one := range []struct {
		name  string
		value fieldkit.Value
	}{{"first gear ratio", d.First}, {"low range ratio", d.Low}, {"converter stall ratio", stall}} {
		if one.value.Dim != fieldkit.DimCount || one.value.Base <= 0 {
			missing = append(missing, one.name)
		}
	}
	if d.Engine.Dim != fieldkit.DimTorque || d.Engine.Base <= 0 {
		missing = append([]string{"engine torque"}, missing...)
	}
	if missing != nil {
		return 0, missing
	}
	gears, _ := reduction(d.First, stall, d.Low)
	return float64(d.Engine.Base) / float64(fieldkit.NewtonMetre) * gears, nil
}

// atGround is the torque at which an axle's tyres slip, both wheels together, in N·m:
// load × g × friction × tyre radius.
func atGround(d fieldkit.Driveline, axle fieldkit.Axle, tyre fieldkit.Length) (nm float64, missing []string) {
	if axle.Load <= 0 {
		missing = append(missing, "load on the axle")
	}
	if d.Friction.Dim != fieldkit.DimCount || d.Friction.Base <= 0 {
		missing = append(missing, "friction")
	}
	if tyre <= 0 {
		missing = append(missing, "tyre diameter")
	}
	if missing != nil {
		return 0, missing
	}
	radius := float64(tyre) / float64(fieldkit.Millimetre) / 2000
	return float64(axle.Load) / float64(fieldkit.Kilogram) * gravity * number(d.Friction) * radius, nil
}

// torques are what reaches the parts of one axle, the lesser of engine and grip.
type torques struct {
	shaft      load // one axle shaft
	driveShaft load // its drive shaft
}

// load is the torque at a part in N·m and what bounds it.
type load struct {
	nm      float64
	limit   Limit
	missing []string // what would have to be known for the torque, or for the other bound
}

// Limit says what bounds the torque at a part.
type Limit string

const (
	ByEngine Limit = "engine and gears"
	ByGrip   Limit = "grip of the tyres"
)

// torquesAt reckons both. An open differential halves what reaches a shaft; a locked
// one sends all to the wheel that holds, whichever carries the axle's load. Either
// bound alone is an upper bound and is used where the other is not known, which is named.
func torquesAt(d fieldkit.Driveline, axle fieldkit.Axle, tyre fieldkit.Length) torques {
	engine, noEngine := atTransferCase(d)
	grip, noGrip := atGround(d, axle, tyre)
	ratio, known := reduction(axle.Ratio)
	if !known {
		missing := []string{"axle ratio"}
		return torques{load{missing: missing}, load{missing: missing}}
	}
	share := 0.5
	if axle.Locked {
		share = 1
	}
	return torques{
		shaft:      lesser(engine*ratio*share, noEngine, grip*share, noGrip),
		driveShaft: lesser(engine, noEngine, grip/ratio, noGrip),
	}
}

func lesser(engine float64, noEngine []string, grip float64, noGrip []string) load {
	switch {
	case noEngine != nil && noGrip != nil:
		return load{missing: append(append([]string(nil), noEngine...), noGrip...)}
	case noGrip != nil || noEngine == nil && engine <= grip:
		return load{engine, ByEngine, noGrip}
	}
	return load{grip, ByGrip, noEngine}
}

// tyreDiameter is the tyre's outside diameter: as written down, else from the size on
// the sidewall, 37x12.50R17 or 265/75R16; 0 if neither says it. A tyre under load is a
// little smaller, which is on the safe side.
func tyreDiameter(rig fieldkit.Rig, d fieldkit.Driveline) fieldkit.Length {
	if d.Tyre.Dim == fieldkit.DimLength && d.Tyre.Base > 0 {
		return fieldkit.Length(d.Tyre.Base)
	}
	size := strings.ToLower(strings.ReplaceAll(rig.Tyre, "×", "x"))
	size = strings.TrimLeft(size, "ltp ")
	if first, rest, ok := strings.Cut(size, "/"); ok {
		aspect, rim, found := strings.Cut(rest, "r")
		width, a, r := figure(first), figure(aspect), figure(rim)
		if found && width > 0 && a > 0 && r > 0 {
			return fieldkit.Length(math.Round(width*a/100*2*float64(fieldkit.Millimetre) + r*float64(fieldkit.Inches)))
		}
		return 0
	}
	if first, _, ok := strings.Cut(size, "x"); ok {
		return fieldkit.Length(math.Round(figure(first) * float64(fieldkit.Inches)))
	}
	return 0
}

// figure reads the number a text begins with, 0 if it begins with none.
func figure(s string) float64 {
	end := strings.IndexFunc(s, func(r rune) bool { return (r < '0' || r > '9') && r != '.' })
	if end < 0 {
		end = len(s)
	}
	f, err := strconv.ParseFloat(s[:end], 64)
	if err != nil {
		return 0
	}
	return f
}

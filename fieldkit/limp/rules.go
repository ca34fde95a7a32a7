package limp

import (
	"fmt"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// rules say what each fault means. What drives is settled by drive, once all are known.
var rules = map[Fault]func(*judge){
	FuelSmell: func(j *judge) {
		j.refuse("Fuel on hot parts burns the rig and whoever is in it.")
		j.say(Practice, "Engine off, battery off, everybody out and upwind, extinguisher at hand. Find the leak before anything else.")
	},
	SteeringLoose: func(j *judge) {
		j.refuse("A joint that comes apart leaves nobody steering.")
		j.say(Practice, "Tighten, lash or replace the joint first, then have somebody turn the wheel while you watch every joint.")
	},
	FrontCircuit:  func(j *judge) { j.circuit(RearAxle) },
	RearCircuit:   func(j *judge) { j.circuit(FrontAxle) },
	OneBrakeLine:  oneBrakeLine,
	BrakeFluidLow: brakeFluidLow,
	ParkingBrake: func(j *judge) {
		j.limit("The rig does not stay where it is left.", 0, 0, 0)
		j.say(Practice, "Chock two wheels before anybody gets out, leave it in gear, park across the slope.")
	},
	FrontShaft: func(*judge) {}, // drive says what is left
	RearShaft: func(j *judge) {
		if j.trait("parking-brake", "drive shaft") == "drive shaft" {
			j.say(Practice, "A parking brake on the rear drive shaft holds nothing now. Chock the wheels.")
		}
	},
	FrontAxleShaft: frontAxleShaft,
	RearAxleShaft:  rearAxleShaft,
	TyreFlat: func(j *judge) {
		j.limit("A flat tyre comes off the rim and takes the brake line with it.", walk, 1*fieldkit.Kilometre, 10)
		j.say(Practice, "Only far enough to a safe place: the tyre is lost, the rim may be. A front tyre steers badly: rather winch.")
	},
	SpareFitted: spareFitted,
	NoAssist: func(j *judge) {
		j.limit("The wheel needs both hands, and kicks back on rocks.", slow, 0, 15)
		j.say(Practice, "Thumbs outside the rim. If the pump runs dry, take its belt off where it drives nothing else.")
	},
	TieRodBent: func(j *judge) {
		j.limit("A rod that was bent once bends again at less.", crawl, 50*fieldkit.Kilometre, 15)
		j.say(Practice, "Sleeve or splint it, and set the toe by measuring between the tyres front and back: equal, or 3 mm less in front.")
		j.watch("Feel for pulling to one side, and look at the rod at every stop.")
	},
	CoolantLow: func(j *judge) {
		j.limit("Without coolant the engine is scrap within minutes.", crawl, 20*fieldkit.Kilometre, 15)
		j.say(Practice, "Never open it hot. Let it cool for half an hour, fill with water, heater full on, stop as soon as the needle climbs.")
		j.watch("The gauge, every minute; steam; the heater blowing cold means the water is gone.")
	},
	EngineOilLow: func(j *judge) {
		j.refuse("An engine without oil pressure seizes, and then nothing steers or brakes with help.")
		j.say(Practice, "Fill to the mark with whatever engine oil there is, find the leak, and drive only while the pressure holds.")
	},
	GearOilLow: func(j *judge) {
		j.limit("A dry bearing or gear locks the axle without a warning.", slow, 80*fieldkit.Kilometre, 0)
		j.say(Practice, "Drain water, fill with any gear oil, or with engine oil if there is none; change it at home.")
		j.watch("A hand's back near the housing: too hot to hold is too hot to go on.")
	},
}

// circuit judges a rig that brakes with one axle.
func (j *judge) circuit(left Axle) {
	if j.damage.has(FrontCircuit) && j.damage.has(RearCircuit) {
		j.refuse("No brakes are left.")
		return
	}
	s := j.facts.oneCircuit(left)
	j.limit("Only the "+string(left)+" brakes are left.", crawl, 30*fieldkit.Kilometre, s.HoldsGrade())
	from := ""
	if j.facts.guessedBrakes() {
		from = " (from a starting guess of its weights)"
	}
	both := Stopping{G: dirtFriction}
	j.say(Computed, fmt.Sprintf("The %s brakes alone do %.0f %% of what all do%s: on dry dirt it stops from 15 km/h (9 mph) within %.0f m instead of %.0f m, without the time to react.",
		left, 100*s.Share, from, metres(s.StopWithin(crawl)), metres(both.StopWithin(crawl))))
	if left == RearAxle {
		j.say(Practice, "Rear brakes alone lock early and swing the tail round: brake before the turn, not in it.")
	}
	j.say(Practice, "Lowest gear down every hill, engine braking, nobody in front of it. Try the brakes at walking pace first.")
	j.watch("The pedal: if it sinks while you hold it, stop there.")
}

func metres(d fieldkit.Distance) float64 { return float64(d) / float64(fieldkit.Metre) }

func oneBrakeLine(j *judge) {
	j.limit("It pulls to one side when braking.", slow, 100*fieldkit.Kilometre, 20)
	j.say(Practice, "Hold the wheel straight while braking. A hose that was clamped is scrap: new hose, not unclamped and used again.")
	j.watch("The level in the reservoir, at every stop.")
}

func brakeFluidLow(j *judge) {
	j.refuse("A pedal that still feels firm may be gone at the next push.")
	j.say(Practice, "Find the leak and shut it off, fill with the fluid on the cap, bleed, then hold the pedal hard for a minute: it must not sink.")
}

func frontAxleShaft(j *judge) {
	switch hub := j.trait("front-hub", "unit bearing"); hub {
	case "locking hub":
		j.say(Practice, "Unlock both front hubs, take out what is loose of the shaft, and drive with the rear axle.")
	case "drive flange":
		j.say(Practice, "Take the drive flange and the broken shaft out, cover the hole, and drive with the rear axle.")
	default:
		j.say(Practice, "On a unit bearing the stub shaft holds the bearing together: leave it in and tight, take out only the inner shaft.")
		j.watch("Play at that front wheel: rock it by hand at every stop.")
	}
	j.limit("A broken shaft end that turns tears the seal, the knuckle or the brake line.", steady, 0, 0)
}

func rearAxleShaft(j *judge) {
	if axle := j.trait("rear-axle", "semi-float"); axle != "full-float" {
		j.refuse("On a semi-float axle the shaft holds the wheel on: the wheel can leave the rig.")
		j.say(Practice, "It does not roll either. Fit the spare shaft, or chain the axle so that the wheel is off the ground, and tow at walking pace.")
		return
	}
	j.say(Practice, "A full-float axle carries the wheel without its shaft: take both pieces out, close the hub with its cap or a bag and tape, and look after the oil.")
	j.limit("Oil and dirt go through an open hub.", steady, 200*fieldkit.Kilometre, 0)
	j.watch("Oil at the hub; the wheel bearing's heat.")
}

func spareFitted(j *judge) {
	f := j.facts
	u, ok := Compare(f.Tyre, f.Spare, f.Track)
	if !ok {
		j.limit("The difference of the tyres is not known.", steady, 80*fieldkit.Kilometre, 0)
		j.say(Practice, "Measure both tyres' diameters on the rig, loaded: twice from the ground to the middle of the wheel.")
		return
	}
	if u.Percent > wideDifference {
		j.limit(fmt.Sprintf("The wheels of the %s axle turn %.1f %% apart.", f.SpareAxle, u.Percent), steady, 80*fieldkit.Kilometre, 0)
	} else if u.Percent > smallDifference {
		j.limit(fmt.Sprintf("The wheels of the %s axle turn %.1f %% apart.", f.SpareAxle, u.Percent), brisk, 200*fieldkit.Kilometre, 0)
	}
	radius := ""
	if u.Radius > 0 {
		m := float64(u.Radius) / float64(1000*fieldkit.Millimetre)
		radius = fmt.Sprintf(", as in a circle of %.0f m (%.0f ft) radius all day long", m, m/0.3048)
	}
	j.say(Computed, fmt.Sprintf("The smaller tyre turns %.1f %% faster%s; the axle sits %s there.", u.Percent, radius, f.higherOrLower(u.Clearance)))
	if lock := j.trait("differential-lock", "automatic"); u.Percent > smallDifference && lock != "none" && lock != "selectable" {
		j.say(Practice, "An automatic locker or a limited slip fights the difference: fit the spare on the other axle if that one is open.")
	}
	if u.Percent > smallDifference && j.trait("drive", "full-time 4x4") != "rear drive" {
		j.say(Practice, "Four-wheel drive only on loose ground: on hard ground the transfer case winds up against the difference.")
	}
	if f.SpareLoad > 0 && f.Weight > 0 {
		j.spareLoad()
	}
}

// Differences of turning under which tyres count as equal, and above which a
// differential gets hot (common practice: a few per cent).
const (
	smallDifference = 1.0
	wideDifference  = 3.0
)

// spareLoad holds the weight on the spare against what its load index allows.
func (j *judge) spareLoad() {
	f := j.facts
	share := f.FrontShare
	if share <= 0 || share >= 100 {
		share = guessFrontShare
	}
	if f.SpareAxle == RearAxle {
		share = 100 - share
	}
	on := f.Weight / 200 * fieldkit.Mass(share)
	text := fmt.Sprintf("On the spare stand about %s; it is made for %s.", on.Both(f.First), f.SpareLoad.Both(f.First))
	if on > f.SpareLoad {
		j.limit("The spare carries more than it is made for.", slow, 20*fieldkit.Kilometre, 15)
		text += " Take weight off that corner."
	}
	j.say(Computed, text)
}

func (f Facts) higherOrLower(q fieldkit.Length) string {
	switch {
	case q > 0:
		return q.Both(f.First) + " higher"
	case q < 0:
		return (-q).Both(f.First) + " lower"
	}
	return "as high as before"
}

// fuel says how far the fuel goes.
func (j *judge) fuel() {
	f := j.facts
	if low, high, ok := f.Range(); ok && j.answer.Verdict != repair.MayNot {
		j.say(Computed, fmt.Sprintf("The fuel goes for %s to %s with a tenth left in the tank; on rock and sand count on the lower.", low.Both(f.First), high.Both(f.First)))
	}
}

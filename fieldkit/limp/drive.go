package limp

import "trailfieldkit/fieldkit"

// drive settles which axles still pull.
func (j *judge) drive() {
	front, rear := true, true
	switch j.trait("drive", "rear drive") {
	case "rear drive":
		front = false
	case "full-time 4x4":
		if j.damage.has(FrontShaft, RearShaft, FrontAxleShaft, RearAxleShaft) {
			j.say(Practice, "Lock the centre differential, or all the drive runs out at the open end.")
		}
	}
	if j.damage.has(FrontShaft, FrontAxleShaft) {
		front = false
	}
	if j.damage.has(RearShaft) {
		rear = false
	} else if j.damage.has(RearAxleShaft) {
		// With an open differential the drive runs out at the broken side.
		rear = !front && j.locked()
		if j.locked() {
			j.say(Practice, "A rear differential that is locked pulls with the shaft that is whole: lock it if it is the rear one that can be.")
		}
	}
	switch {
	case front && rear:
		j.answer.Axles = "both"
	case rear:
		j.answer.Axles = "rear only"
		if j.damage.has(FrontShaft) {
			j.limit("Only the rear axle pulls.", brisk, 0, 25)
			j.say(Practice, "Two-wheel drive, hubs unlocked. Take the front drive shaft off whole: one end hanging is a flail under the tank.")
		}
	case front:
		j.answer.Axles = "front only"
		j.limit("Only the front axle pulls, and it was not made to pull alone.", steady, 300*fieldkit.Kilometre, 15)
		j.say(Practice, "Four-wheel drive engaged, hubs locked, centre differential locked if there is one. Gentle on the pedal with the wheel turned: the front joints are at their weakest there.")
		if j.damage.has(RearShaft) {
			j.say(Practice, "Take the rear drive shaft off whole. If it slides out of the transfer case, plug the hole: the oil runs out there.")
		}
	default:
		j.answer.Axles = "none"
		j.refuse("Nothing pulls: no axle is left.")
		j.say(Practice, "It may still be towed or winched if it rolls, steers and brakes.")
	}
}

// locked reports whether a differential of this rig can be locked.
func (j *judge) locked() bool {
	switch j.trait("differential-lock", "none") {
	case "selectable", "automatic":
		return true
	}
	return false
}

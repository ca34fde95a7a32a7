package plainpage

import (
	"trailfieldkit/fieldkit"
)

// Emergency is what to know when somebody is hurt or the rig is stuck for good: when
// to stop, how to call for help, and of each rig its figures and whom to call.
func Emergency(rigs []fieldkit.Rig, first fieldkit.System) Page {
	var w writer
	w.bullets("Stop at once", stopSigns)
	w.bullets("Call for help", callForHelp)
	w.section("Signs that are understood everywhere").raw("<ul class=\"list\">")
	for _, s := range signals {
		w.entry(s.sign, s.means)
	}
	w.raw("</ul>").end()
	for _, r := range rigs {
		w.section(r.Name).raw("<ul class=\"list\">")
		for _, c := range r.Contacts {
			w.entry(c.Name, c.Line)
		}
		if r.Tyre != "" {
			w.entry("tyre", r.Tyre)
		}
		for _, f := range r.Figures {
			w.entry(f.Name, f.Value.Both(first))
		}
		if r.Registration != "" {
			w.entry("papers", r.Registration)
		}
		w.raw("</ul>")
		if len(r.Contacts) == 0 {
			w.tag("p", "soft", "Nobody to call is written down for this rig: add them under \"About this rig\".")
		}
		if len(r.Figures) == 0 {
			w.tag("p", "soft", "No figures are written down for this rig: add weights, tyre pressures and fluids under \"About this rig\".")
		}
		w.end()
	}
	return Page{Name: emergencyName, Kind: "what to know", Title: "Emergency", body: w.String()}
}

// Common practice of off-road driving and first aid.
var stopSigns = []string{
	"Somebody is hurt: people before the rig.",
	"You smell fuel, or see smoke: engine off, everybody out and upwind, then the extinguisher from a distance.",
	"The brakes are gone or the steering is loose: stop where it stands, chock the wheels.",
	"The rig leans or slides: get out on the uphill side, stay away from ropes, cables and the way it would roll.",
	"Never go under a rig that stands on a jack alone, and never step over a rope or cable under load.",
}

// 112 is known to every mobile phone and carried by any network (3GPP TS 22.101, clause
// 10, from memory). What to say is common practice.
var callForHelp = []string{
	"Call 112, or the emergency number of the country. A phone without your own network's signal may still reach it through another's.",
	"No signal: climb, step away from the rig, try again, try a text message. Then satellite messenger, beacon or radio.",
	"Say first where you are, as figures. Then what happened, how many people, who is hurt and how, what you need, how to reach you.",
	"Stay with the rig: it is easier to find than people. Shade, water, warmth; save the phone's battery.",
	"Write down when you called and what was agreed.",
}

// Whistle and light: the distress signal of mountain rescue, six in a minute. Ground
// signs: ICAO Annex 12, ground-air visual signal code for survivors. Both from memory.
var signals = []struct{ sign, means string }{
	{"Six times in a minute, then a minute's rest", "whistle, horn or light: we need help. The answer is three in a minute."},
	{"V, laid out large on the ground", "seen from the air: we need assistance"},
	{"X", "we need medical assistance"},
	{"Y and N", "yes and no"},
	{"Both arms up, as a Y", "to a helicopter: yes, we need help. One arm up, one down, as an N: no."},
}

// Package fastener says how tight a bolt is to be where the maker's figure is not at
// hand: from its thread, its grade and how slippery it is.
//
//	bolt, err := handbook.ParseBolt("1/2-13 UNC grade 8")
//	answer, err := fastener.Tighten(fastener.Ask{Bolt: bolt, Friction: fastener.Dry})
//	answer.Torque           // 144 N·m
//	answer.Low, answer.High // what the same preload takes if the friction is at the edge of its range
//	fastener.Pull(answer.Torque, 300*fieldkit.Millimetre) // without a torque wrench
//
// The figure is a computed one and is to be labelled so: the vehicle maker's figure
// goes before it wherever there is one. It does not know of gaskets, soft joints,
// bolts that are used once, prevailing-torque nuts or thread locker, and it gives no
// figure for wheel nuts, which seat on a cone.
package fastener

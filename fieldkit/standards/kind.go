package standards

// Kind is what a designation names.
type Kind string

// The kinds, in the order in which readings of equal standing are listed.
const (
	KindBall         Kind = "ball bearing"
	KindRoller       Kind = "cylindrical roller bearing"
	KindNeedle       Kind = "needle cage"
	KindTaperMetric  Kind = "metric tapered bearing"
	KindTaperInch    Kind = "inch tapered bearing"
	KindORing        Kind = "O-ring"
	KindSeal         Kind = "shaft seal"
	KindInchThread   Kind = "inch thread"
	KindMetricThread Kind = "metric thread"
	KindPipeThread   Kind = "pipe thread"
	KindBolt         Kind = "bolt"
	KindFitting      Kind = "fitting"
	KindHose         Kind = "hose"
	KindTyre         Kind = "tyre"
	KindWheel        Kind = "wheel bolt circle"
	KindBelt         Kind = "ribbed belt"
	KindUJoint       Kind = "universal joint"
	KindSpline       Kind = "spline"
	KindBattery      Kind = "battery group"
	KindFuse         Kind = "fuse"
	KindWire         Kind = "wire"
	KindFriction     Kind = "friction edge code"
	KindGearOil      Kind = "gear oil"
	KindGrease       Kind = "grease"
	KindBrakeFluid   Kind = "brake fluid"
	KindVIN          Kind = "vehicle number"
	KindGTIN         Kind = "article number"
)

package fieldkit

// Prior is what is taken for how parts of a kind fail until the crew's own log says
// better: a starting guess, not measured. The catalog has one for every part kind; a
// kit may hold its own for some, which then stand instead.
//
// Figures are whole numbers, so that a file keeps them exactly.
type Prior struct {
	ID   string `json:"id"`                   // the part kind
	Rate int    `json:"failuresPerMillionKm"` // of rough track, at one place on a rig
	// Weibull law of lives: Shape in hundredths (100 does not age), Life the distance
	// of rough track by which 63.2 % have failed.
	Shape int      `json:"shape,omitempty"`
	Life  Distance `json:"life,omitempty"`
	// Wear is how far the kind's wear reading moves in 10 000 km of rough track, and
	// Sudden how many in a hundred failures it does not announce.
	Wear   Value `json:"wearPer10000km,omitempty"`
	Sudden int   `json:"sudden,omitempty"`
	// Exposure. Terrain, Tyre and Load are powers in hundredths: of the terrain's
	// hardness, of the tyre's diameter and of the axles' load over what the axles were
	// built for. Water is the rough track that one deep crossing is as bad as, Dust
	// how many per cent heavy dust adds.
	Terrain int      `json:"terrain,omitempty"`
	Tyre    int      `json:"tyre,omitempty"`
	Load    int      `json:"load,omitempty"`
	Water   Distance `json:"water,omitempty"`
	Dust    int      `json:"dust,omitempty"`
	Note    string   `json:"note,omitempty"`
	Extra   Extra    `json:"-"`
}

func (r Prior) Key() string      { return r.ID }
func (Prior) Collection() string { return "priors" }

// PriorOf returns what is taken for a part kind: the kit's own figures, else the
// catalog's. own reports the former; ok is false if neither has any.
func (k Kit) PriorOf(kind PartKind) (p Prior, own, ok bool) {
	if p, ok := Find(k.Priors, kind.ID); ok {
		return p, true, true
	}
	return kind.Prior, false, kind.Prior.ID != ""
}

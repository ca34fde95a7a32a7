package fieldkit

// Visit is one question asked at a store: whether it had a part of a kind.
type Visit struct {
	ID    string `json:"id"`
	Store string `json:"store"`          // store kind of the catalog
	Name  string `json:"name,omitempty"` // of the store itself
	On    Date   `json:"on"`
	Kind  string `json:"kind"` // part kind of the catalog
	Had   bool   `json:"had"`
	Note  string `json:"note,omitempty"`
	Extra Extra  `json:"-"`
}

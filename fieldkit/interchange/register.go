package interchange

import (
	"maps"
	"slices"
)

// register keeps what stands under a key: the links of a part, the parts that bear a
// designation. It is cut into pages, so that a register in which little is different
// shares all the others with the one before, which stays as it is.
type register[V comparable] [pages]map[string][]V

const pages = 512

// entered is one line of a register.
type entered[V comparable] struct {
	key   string
	value V
}

func (r *register[V]) under(key string) []V { return r[pageOf(key)][key] }

// enter adds to a register that nobody else has yet.
func (r *register[V]) enter(key string, value V) {
	page := &r[pageOf(key)]
	if *page == nil {
		*page = map[string][]V{}
	}
	(*page)[key] = append((*page)[key], value)
}

// revised is the register without some lines and with others.
func (r register[V]) revised(out, in []entered[V]) register[V] {
	own := map[uint32]bool{}
	for i, line := range slices.Concat(out, in) {
		page := pageOf(line.key)
		if !own[page] {
			own[page] = true
			if r[page] = maps.Clone(r[page]); r[page] == nil {
				r[page] = map[string][]V{}
			}
		}
		values := slices.Clone(r[page][line.key])
		if i >= len(out) {
			values = append(values, line.value)
		} else if at := slices.Index(values, line.value); at >= 0 {
			values = slices.Delete(values, at, at+1)
		}
		if r[page][line.key] = values; len(values) == 0 {
			delete(r[page], line.key)
		}
	}
	return r
}

// pageOf spreads the keys evenly (FNV-1a, 32 bit).
func pageOf(key string) uint32 {
	sum := uint32(2166136261)
	for i := range len(key) {
		sum = (sum ^ uint32(key[i])) * 16777619
	}
	return sum % pages
}

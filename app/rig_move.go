package app

import (
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// moved returns a list in which one entry has gone by places towards the end; an
// entry at the end stays.
func moved[T any](list []T, which func(T) bool, by int) []T {
	list = slices.Clone(list)
	from := slices.IndexFunc(list, which)
	if to := from + by; from >= 0 && to >= 0 && to < len(list) {
		entry := list[from]
		list = slices.Insert(slices.Delete(list, from, from+1), to, entry)
	}
	return list
}

func wayOf(by int) string {
	if by < 0 {
		return "up"
	}
	return "down"
}

// siblings lists the positions shown beside one, itself included: same system, same
// parent, in their order.
func siblings(k fieldkit.Kit, p fieldkit.Position) []fieldkit.Position {
	var list []fieldkit.Position
	for _, q := range treeOrder(k, p.System) {
		if shownUnder(k, q) == shownUnder(k, p) {
			list = append(list, q)
		}
	}
	return list
}

// shownUnder is the parent a position is shown under: none if its parent is of
// another system.
func shownUnder(k fieldkit.Kit, p fieldkit.Position) string {
	if parent, ok := k.Position(p.Parent); ok && parent.System == p.System {
		return parent.ID
	}
	return ""
}

// movePosition moves a position among its siblings.
func movePosition(e *journal.Edit, id string, by int) {
	p, ok := e.Kit().Position(id)
	if !ok {
		return
	}
	list := moved(siblings(e.Kit(), p), func(q fieldkit.Position) bool { return q.ID == id }, by)
	for i, q := range list {
		if q.Order != i {
			q.Order = i
			e.Put(q)
		}
	}
}

// putPosition keeps a position; when it has gone to another system, what belongs
// under it goes along.
func putPosition(e *journal.Edit, p fieldkit.Position) {
	for _, q := range under(e.Kit(), p.ID) {
		if q.System != p.System {
			q.System = p.System
			e.Put(q)
		}
	}
	e.Put(p)
}

// under lists everything that belongs under a position, at any depth.
func under(k fieldkit.Kit, id string) []fieldkit.Position {
	seen := map[string]bool{id: true}
	var list []fieldkit.Position
	for next := []string{id}; len(next) > 0; next = next[1:] {
		for _, p := range k.PositionsUnder(next[0]) {
			if !seen[p.ID] {
				seen[p.ID] = true
				list = append(list, *p)
				next = append(next, p.ID)
			}
		}
	}
	return list
}

// parentOptions lists what a position of a system can belong under: not itself,
// and nothing that belongs under it.
func parentOptions(k fieldkit.Kit, system, id string) []option {
	below := map[string]bool{id: true}
	if id != "" {
		for _, p := range under(k, id) {
			below[p.ID] = true
		}
	}
	var list []option
	for _, p := range treeOrder(k, system) {
		if !below[p.ID] {
			list = append(list, option{p.ID, p.Title()})
		}
	}
	return list
}

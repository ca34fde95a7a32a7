package app

import (
	"cmp"
	"slices"

	"trailfieldkit/fieldkit"
)

// systemsOf returns the systems of a rig in the order they are shown.
func systemsOf(k fieldkit.Kit, rig string) []fieldkit.Assembly {
	var list []fieldkit.Assembly
	for _, s := range k.Systems {
		if s.Rig == rig {
			list = append(list, s)
		}
	}
	slices.SortStableFunc(list, func(a, b fieldkit.Assembly) int { return cmp.Compare(a.Order, b.Order) })
	return list
}

// treeOrder returns the positions of a system, each parent before what belongs
// under it.
func treeOrder(k fieldkit.Kit, system string) []fieldkit.Position {
	return inTreeOrder(positionsIn(k, system))
}

// inTreeOrder is treeOrder for the positions of one system.
func inTreeOrder(mine []fieldkit.Position) []fieldkit.Position {
	inSystem := map[string]bool{}
	for _, p := range mine {
		inSystem[p.ID] = true
	}
	slices.SortStableFunc(mine, func(a, b fieldkit.Position) int { return cmp.Compare(a.Order, b.Order) })
	var ordered []fieldkit.Position
	var take func(parent string)
	take = func(parent string) {
		for _, p := range mine {
			top := p.Parent == "" || !inSystem[p.Parent]
			if (parent == "" && top) || (parent != "" && p.Parent == parent) {
				ordered = append(ordered, p)
				take(p.ID)
			}
		}
	}
	take("")
	return ordered
}

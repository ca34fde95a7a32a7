package app

import "trailfieldkit/fieldkit"

// Lists to pick from, made of the kit and the catalog.

func systemOptions(k fieldkit.Kit, rig string) []option {
	var list []option
	several := len(k.Rigs) > 1 && rig == ""
	for _, r := range k.Rigs {
		if rig != "" && r.ID != rig {
			continue
		}
		for _, s := range systemsOf(k, r.ID) {
			label := s.Name
			if several {
				label = r.Name + ": " + label
			}
			list = append(list, option{s.ID, label})
		}
	}
	return append([]option{{"", "choose …"}}, list...)
}

// positionOptions lists the positions of a rig, or of all rigs, without one.
func positionOptions(k fieldkit.Kit, rig, without string) []option {
	var list []option
	for _, r := range k.Rigs {
		if rig != "" && r.ID != rig {
			continue
		}
		in := map[string][]fieldkit.Position{}
		for _, p := range k.PositionsOf(r.ID) {
			in[p.System] = append(in[p.System], p)
		}
		for _, s := range systemsOf(k, r.ID) {
			for _, p := range inTreeOrder(in[s.ID]) {
				if p.ID == without {
					continue
				}
				label := s.Name + ": " + p.Title()
				if rig == "" && len(k.Rigs) > 1 {
					label = r.Name + ", " + label
				}
				list = append(list, option{p.ID, label})
			}
		}
	}
	return list
}

func kindOptions(cat fieldkit.Catalog) []option {
	list := []option{{"", "choose …"}}
	for _, k := range cat.PartKinds {
		list = append(list, option{k.ID, k.Name})
	}
	return list
}

func donorOptions(k fieldkit.Kit) []option {
	var list []option
	for _, d := range k.Donors {
		list = append(list, option{d.ID, d.Title()})
	}
	return list
}

func partOptions(k fieldkit.Kit, without string) []option {
	var list []option
	for _, p := range k.Parts.Refs() {
		if p.ID != without {
			list = append(list, option{p.ID, p.Name})
		}
	}
	return list
}

func binOptions(k fieldkit.Kit) []option {
	var list []option
	for _, b := range k.Bins {
		label := b.Name
		if rig, ok := k.Rig(b.Rig); ok && len(k.Rigs) > 1 {
			label += ", " + rig.Name
		}
		list = append(list, option{b.ID, label})
	}
	return list
}

func rigOptions(k fieldkit.Kit) []option {
	var list []option
	for _, r := range k.Rigs {
		list = append(list, option{r.ID, r.Name})
	}
	return list
}

func evidenceOptions() []option {
	var list []option
	for _, e := range fieldkit.EvidenceOrder {
		list = append(list, option{string(e), string(e)})
	}
	return list
}

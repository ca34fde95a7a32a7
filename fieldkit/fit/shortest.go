package fit

// shortest gives the fewest things to find out that close every open attribute: each
// closes itself, a designation what it settles. Of several such lists the one with the
// least effort, then the first in the order of the schema.
func (r Result) shortest() []ToDo {
	place := map[string]int{} // of an open attribute among those open
	var open []int
	for i, l := range r.Lines {
		if l.open() && l.Attribute.Must {
			place[l.Name()] = len(open)
			open = append(open, i)
		}
	}
	var sets []coverSet
	var lines []int
	for i, l := range r.Lines {
		set := coverSet{cost: stepCost + effortOf(l)}
		if k, ok := place[l.Name()]; ok {
			set.items = append(set.items, k)
		}
		if l.Outcome == NotMeasured { // of the wanted part it is known
			for _, name := range l.Attribute.Spec.Settles {
				if k, ok := place[name]; ok {
					set.items = append(set.items, k)
				}
			}
		}
		if len(set.items) > 0 {
			sets, lines = append(sets, set), append(lines, i)
		}
	}
	chosen, _ := cheapestCover(len(open), sets)
	var list []ToDo
	for _, k := range chosen {
		l := r.Lines[lines[k]]
		todo := l.toDo()
		for _, name := range l.Attribute.Spec.Settles {
			if _, ok := place[name]; ok && l.Outcome == NotMeasured {
				todo.Instead = append(todo.Instead, name)
			}
		}
		list = append(list, todo)
	}
	return list
}

// stepCost weighs one thing to do against any effort, so that the list is the shortest.
const stepCost = 1000

// effortOf is less for what is looked at than for what is measured, and more if both
// parts have to be measured.
func effortOf(l Line) int {
	effort := 1
	if l.Attribute.Dim != "text" {
		effort = 2
	}
	if l.Wanted == nil && l.Got == nil {
		effort *= 2
	}
	return effort
}

func (l Line) open() bool {
	switch l.Outcome {
	case NotSure, NotProven, NotMeasured, NotKnown:
		return true
	}
	return false
}

func (l Line) toDo() ToDo {
	todo := ToDo{Name: l.Name(), How: l.Attribute.How, Why: l.Why, Wanted: l.Wanted == nil, InHand: l.Got == nil}
	if l.Why == "" {
		todo.Why = l.Attribute.Why
	}
	if l.Wanted != nil && l.Got != nil { // again, where it was done worse
		weak := l.Wanted.How.Strength() < l.Attribute.enough().Strength()
		coarse := l.Wanted.Within > l.Got.Within
		todo.Wanted = l.Outcome == NotProven && weak || l.Outcome == NotSure && (coarse || l.Wanted.Worn)
		todo.InHand = !todo.Wanted || l.Outcome == NotProven && l.Got.How.Strength() < l.Attribute.enough().Strength()
	}
	return todo
}

// Package generatedtest makes planning problems to test and measure the planner on.
package generatedtest

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
)

// Size says how large a problem is.
type Size struct{ Spares, Tools int }

// Goal is the size that the goals of proving are about; one problem says little, so there
// are goalSeeds of each form.
var Goal = Size{200, 60}

const goalSeeds = 12

// Sizes are those the planner is measured on.
var Sizes = []Size{{20, 10}, {50, 20}, {100, 40}, Goal, {500, 100}}

// Problem is one of those the planner is measured on.
type Problem struct {
	Name string // "linear-200+60-b"
	Form string // "linear" or "pooled"
	Size Size
	Text []byte // a problem file
}

// Problems makes two of each form and size, and more of the one the goals are about.
func Problems() (list []Problem) {
	for _, size := range Sizes {
		seeds := 2
		if size == Goal {
			seeds = goalSeeds
		}
		for seed := range seeds {
			name := func(form string) string { return fmt.Sprintf("%s-%d+%d-%c", form, size.Spares, size.Tools, 'a'+seed) }
			list = append(list,
				Problem{name("linear"), "linear", size, Linear(size, uint64(seed))},
				Problem{name("pooled"), "pooled", size, Pooled(size, uint64(seed))})
		}
	}
	return list
}

type object = map[string]any

// amounts of one piece: grams, cents, millilitres.
func amounts(src *rand.Rand, o object, sum *[3]int, heavy int) object {
	for l, name := range []string{"weight", "cost", "volume"} {
		n := 100 + src.IntN([]int{6000, 15000, 5000}[l]/heavy)
		o[name] = n
		sum[l] += n
	}
	return o
}

func limits(sum [3]int, share float64) object {
	return object{"weight": int(float64(sum[0]) * share), "cost": int(float64(sum[1]) * share), "volume": int(float64(sum[2]) * share)}
}

// some draws up to so many different numbers below n.
func some(src *rand.Rand, most, n int, name string) []string {
	list := []string{}
	for _, i := range src.Perm(n)[:src.IntN(min(most, n)+1)] {
		list = append(list, fmt.Sprint(name, i))
	}
	return list
}

// Linear makes a problem of the linear form: as many positions as spares, each spare
// fits one to three of them, each position's repair needs none to three tools, and a
// third of everything can be carried.
func Linear(size Size, seed uint64) []byte {
	src := rand.New(rand.NewPCG(seed, uint64(size.Spares)))
	sum := [3]int{}
	positions, items, tools := []object{}, []object{}, []object{}
	for i := range size.Spares {
		positions = append(positions, object{
			"id": fmt.Sprint("p", i), "p": float64(10+src.IntN(340)) / 1000, "loss": 5 + src.IntN(95),
			"tools": some(src, 3, size.Tools, "t"),
		})
	}
	for i := range size.Spares {
		fits := some(src, 2, size.Spares, "p")
		if own := fmt.Sprint("p", i); !slices.Contains(fits, own) {
			fits = append(fits, own)
		}
		items = append(items, amounts(src, object{"id": fmt.Sprint("s", i), "copies": 1, "fits": fits}, &sum, 1))
	}
	for i := range size.Tools {
		tools = append(tools, amounts(src, object{"id": fmt.Sprint("t", i)}, &sum, 2))
	}
	return text(object{"limits": limits(sum, 1.0/3), "positions": positions, "items": items, "tools": tools})
}

// Pooled makes a problem of the pooled form: a group a spare, one to four copies, none
// to two tools each.
func Pooled(size Size, seed uint64) []byte {
	src := rand.New(rand.NewPCG(seed, uint64(size.Spares)+1))
	sum := [3]int{}
	groups, tools := []object{}, []object{}
	for i := range size.Spares {
		rates := []float64{}
		for range 1 + src.IntN(4) {
			rates = append(rates, float64(50+src.IntN(400))/1000)
		}
		groups = append(groups, amounts(src, object{
			"id": fmt.Sprint("g", i), "position_rates": rates, "loss": 5 + src.IntN(95), "copies": 1 + src.IntN(4),
			"tools": some(src, 2, size.Tools, "t"),
		}, &sum, 2))
	}
	for i := range size.Tools {
		tools = append(tools, amounts(src, object{"id": fmt.Sprint("t", i)}, &sum, 2))
	}
	return text(object{"limits": limits(sum, 0.4), "groups": groups, "tools": tools})
}

func text(o object) []byte {
	b, err := json.Marshal(o)
	if err != nil {
		panic(err)
	}
	return b
}

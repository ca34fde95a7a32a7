package problemfile

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares/optimum"
)

// Bounds of what a file may hold.
const (
	maxBytes   = 16 << 20
	maxRecords = 5000
	maxLimits  = 10
	maxCopies  = 1e9
	maxLoads   = 1_000_000 // numbers of copies to choose from, of all groups together
	maxMean    = 1e6
	maxLoss    = 1e12
)

// Task is a problem as read.
type Task struct {
	names  []string // of the limits, sorted
	scales []int    // decimals kept of each
	limits []int64
	// linear form
	positions []position
	// both forms: items of the linear form, groups of the pooled one
	pieces []piece
	tools  []tool
	pooled bool
}

type position struct {
	id    string
	gain  float64
	tools []int
}

type piece struct {
	id      string
	amounts []int64
	copies  int
	fits    []int   // linear
	mean    float64 // pooled
	loss    float64
	tools   []int
	loads   []optimum.Column // pooled, see loadsOf
}

type tool struct {
	id      string
	amounts []int64
}

// record is one JSON object with its place.
type record struct {
	where  string
	fields map[string]json.RawMessage
}

// The fields of what has amounts: no limit has the name of one.
var (
	linearFields = []string{"id", "copies", "fits"}
	pooledFields = []string{"id", "position_rates", "lambda", "loss", "copies", "tools"}
)

func wrong(where, do, what string, args ...any) error {
	return &fieldkit.Error{Kind: fieldkit.BadInput, Where: where, What: fmt.Sprintf(what, args...), Do: do}
}

// Read reads a problem file. It returns an error that says where for anything that
// cannot be taken as meant.
func Read(text []byte) (*Task, error) {
	if len(text) > maxBytes {
		return nil, &fieldkit.Error{Kind: fieldkit.TooBig, What: fmt.Sprintf("the problem has %d bytes", len(text)), Do: "keep it below 16 MB"}
	}
	top := map[string]json.RawMessage{}
	if err := json.Unmarshal(text, &top); err != nil || top == nil {
		return nil, &fieldkit.Error{Kind: fieldkit.BadInput, What: "this is no JSON object", Do: "give one problem as one object, from { to }", Cause: err}
	}
	if _, ok := top["limits"]; !ok {
		if _, several := top["instances"]; several {
			return nil, wrong("", "give one object of \"instances\" as a file of its own", "this file holds several problems")
		}
		return nil, wrong("", `add "limits": {NAME: amount}`, "there are no limits")
	}
	r := &reader{task: &Task{}}
	_, hasGroups := top["groups"]
	fields := linearFields
	if hasGroups {
		fields = pooledFields
	}
	r.readLimits(top["limits"], fields)
	_, hasPositions := top["positions"]
	_, hasItems := top["items"]
	switch {
	case r.err != nil:
	case hasGroups && (hasPositions || hasItems):
		r.fail("", "keep one form", "there are groups beside positions or items: two forms in one file")
	case !hasGroups && !hasPositions && !hasItems:
		r.fail("", "add positions and items, or groups", "there is nothing to choose from")
	}
	tools := r.records(top["tools"], "tools")
	r.toolIDs = r.ids(tools, "tool")
	for _, rec := range tools {
		r.task.tools = append(r.task.tools, tool{id: r.id(rec)})
	}
	var pieces []record
	if hasGroups {
		r.task.pooled = true
		pieces = r.records(top["groups"], "groups")
		r.ids(pieces, "group")
		r.groups(pieces)
	} else {
		positions := r.records(top["positions"], "positions")
		r.positionIDs = r.ids(positions, "position")
		r.positions(positions)
		pieces = r.records(top["items"], "items")
		r.ids(pieces, "item")
		r.items(pieces)
	}
	r.amounts(pieces, tools)
	r.loads()
	if r.err != nil {
		return nil, r.err
	}
	return r.task, nil
}

// reader keeps the first error; what it reads after one does not matter.
type reader struct {
	task        *Task
	err         error
	most        []decimal // by limit
	toolIDs     map[string]int
	positionIDs map[string]int
}

func (r *reader) fail(where, do, what string, args ...any) {
	if r.err == nil {
		r.err = wrong(where, do, what, args...)
	}
}

func (r *reader) readLimits(raw json.RawMessage, fields []string) {
	limits := map[string]json.RawMessage{}
	if err := json.Unmarshal(raw, &limits); err != nil || len(limits) == 0 || len(limits) > maxLimits {
		r.fail("limits", `write {"weight": 5000}`, "these are not one to ten named limits")
		return
	}
	for name := range limits {
		r.task.names = append(r.task.names, name)
	}
	slices.Sort(r.task.names)
	for _, name := range r.task.names {
		where := fmt.Sprintf("limits, %q", name)
		if slices.Contains(fields, name) {
			r.fail(where, "give the limit another name", "this is the name of a field")
		}
		r.most = append(r.most, r.amount(limits[name], where))
	}
}

func (r *reader) records(raw json.RawMessage, what string) (list []record) {
	if raw == nil {
		return nil
	}
	var objects []map[string]json.RawMessage
	if err := json.Unmarshal(raw, &objects); err != nil {
		r.fail(what, "write a list of objects", "this is no list of objects")
		return nil
	}
	if len(objects) > maxRecords {
		r.fail(what, fmt.Sprintf("keep to %d", maxRecords), "there are %d", len(objects))
		return nil
	}
	for i, fields := range objects {
		list = append(list, record{fmt.Sprintf("%s, number %d", what, i+1), fields})
	}
	return list
}

// id reads a record's ID: a string, or a number taken as it stands.
func (r *reader) id(rec record) string {
	id, ok := idOf(rec.fields["id"])
	if !ok {
		r.fail(rec.where, `add "id"`, "it has no id")
	}
	return id
}

func idOf(raw json.RawMessage) (string, bool) {
	var id string
	if json.Unmarshal(raw, &id) == nil && raw != nil && string(raw) != "null" {
		return id, id != ""
	}
	var n json.Number
	if json.Unmarshal(raw, &n) == nil && n != "" {
		return n.String(), true
	}
	return "", false
}

func (r *reader) ids(list []record, what string) map[string]int {
	at := map[string]int{}
	for i, rec := range list {
		id := r.id(rec)
		if _, twice := at[id]; twice {
			r.fail(rec.where, "give each its own id", "the %s id %q is there twice", what, id)
		}
		at[id] = i
	}
	return at
}

// references reads a list of IDs.
func (r *reader) references(rec record, field string, known map[string]int) (list []int) {
	raw, ok := rec.fields[field]
	if !ok {
		return nil
	}
	var entries []json.RawMessage
	if err := json.Unmarshal(raw, &entries); err != nil {
		r.fail(rec.where+", "+field, "write a list of ids", "this is no list")
	}
	for _, e := range entries {
		id, _ := idOf(e)
		at, ok := known[id]
		if !ok {
			r.fail(rec.where+", "+field, "add it, or take it out here", "nothing has the id %s", string(e))
		}
		list = append(list, at)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

func (r *reader) number(rec record, field string, least, most float64) float64 {
	raw, ok := rec.fields[field]
	if !ok {
		r.fail(rec.where, fmt.Sprintf("add %q", field), "it has no %s", field)
		return 0
	}
	x := math.NaN()
	if err := json.Unmarshal(raw, &x); err != nil || !(x >= least && x <= most) {
		r.fail(rec.where+", "+field, fmt.Sprintf("write a number from %g to %g", least, most), "%s cannot be taken", clip(raw))
		return 0
	}
	return x
}

func clip(raw json.RawMessage) string {
	if len(raw) > 40 {
		return string(raw[:40]) + "…"
	}
	return string(raw)
}

func (r *reader) copies(rec record) int {
	raw, ok := rec.fields["copies"]
	if !ok {
		return 1
	}
	x := math.NaN()
	if err := json.Unmarshal(raw, &x); err != nil || !(x >= 0) || x != math.Trunc(x) {
		r.fail(rec.where+", copies", "write 0, 1, 2 …", "%s is no number of copies", clip(raw))
		return 0
	}
	return int(min(x, maxCopies))
}

func (r *reader) positions(list []record) {
	for _, rec := range list {
		r.task.positions = append(r.task.positions, position{
			id: r.id(rec), gain: r.number(rec, "p", 0, 1) * r.number(rec, "loss", 0, maxLoss),
			tools: r.references(rec, "tools", r.toolIDs),
		})
	}
}

func (r *reader) items(list []record) {
	for _, rec := range list {
		r.task.pieces = append(r.task.pieces, piece{
			id: r.id(rec), copies: r.copies(rec), fits: r.references(rec, "fits", r.positionIDs),
		})
	}
}

func (r *reader) groups(list []record) {
	for _, rec := range list {
		p := piece{id: r.id(rec), copies: r.copies(rec), loss: r.number(rec, "loss", 0, maxLoss), tools: r.references(rec, "tools", r.toolIDs)}
		if raw, ok := rec.fields["position_rates"]; ok && string(raw) != "null" {
			var rates []float64
			if err := json.Unmarshal(raw, &rates); err != nil {
				r.fail(rec.where+", position_rates", "write a list of numbers", "this is no list of rates")
			}
			for _, x := range rates {
				if !(x >= 0 && x <= maxMean) {
					r.fail(rec.where+", position_rates", fmt.Sprintf("write numbers from 0 to %g", maxMean), "%g is no rate", x)
				}
				p.mean += x
			}
			if p.mean > maxMean {
				r.fail(rec.where+", position_rates", fmt.Sprintf("keep the sum to %g", maxMean), "together they are %g", p.mean)
			}
		} else {
			p.mean = r.number(rec, "lambda", 0, maxMean)
		}
		r.task.pieces = append(r.task.pieces, p)
	}
}

// amounts reads what everything takes of the limits, in whole steps of the finest
// decimal of each.
func (r *reader) amounts(pieces, tools []record) {
	if r.err != nil {
		return
	}
	for l, name := range r.task.names {
		var list []decimal
		for _, rec := range append(slices.Clone(pieces), tools...) {
			d := decimal{}
			if raw, ok := rec.fields[name]; ok {
				d = r.amount(raw, fmt.Sprintf("%s, %q", rec.where, name))
			}
			list = append(list, d)
		}
		if r.err != nil {
			return
		}
		limit, amounts, scale := toSteps(r.most[l], list)
		r.task.limits, r.task.scales = append(r.task.limits, limit), append(r.task.scales, scale)
		for i, a := range amounts {
			if i < len(pieces) {
				r.task.pieces[i].amounts = append(r.task.pieces[i].amounts, a)
			} else {
				t := &r.task.tools[i-len(pieces)]
				t.amounts = append(t.amounts, a)
			}
		}
	}
}

// loads lays out how many copies of each group may be carried.
func (r *reader) loads() {
	if r.err != nil || !r.task.pooled {
		return
	}
	left := maxLoads
	for i := range r.task.pieces {
		g := &r.task.pieces[i]
		var ok bool
		if g.loads, left, ok = loadsOf(*g, r.task.limits, left); !ok {
			r.fail("groups", "give fewer copies, or limits that allow fewer", "there are more than %d numbers of copies to choose from", maxLoads)
			return
		}
	}
}

func (r *reader) amount(raw json.RawMessage, where string) decimal {
	d, ok := parseDecimal(raw)
	if !ok {
		r.fail(where, "write a number of 0 or more, below 10^15", "%s is no amount", clip(raw))
	}
	return d
}

package fieldkit

import (
	"reflect"
	"sync"
	"weak"
)

// Find returns the record of that ID; ok is false if there is none.
func Find[T Record](list []T, id string) (r T, ok bool) {
	if len(list) >= shortList {
		if i := placeOf(reflect.ValueOf(list), id); i >= 0 {
			return list[i], true
		}
		return r, false
	}
	for i := range list {
		if list[i].Key() == id {
			return list[i], true
		}
	}
	return r, false
}

const (
	shortList  = 32 // is searched from its front each time
	askedFirst = 2  // so often a long list is, before an index of it pays
	mostLists  = 64 // of which an index is remembered
)

// places remembers where the records of long lists are, for all lists searched
// lately. It rests on the rule that the lists of a kit are never changed in place: a
// list is known by the address of its first record. The addresses are weak, so that a
// kit nobody holds any more can go.
var places = struct {
	sync.Mutex
	of map[weak.Pointer[string]]*listed
}{of: map[weak.Pointer[string]]*listed{}}

type listed struct {
	index *placeIndex // none before the list was asked for a few times
	asked int
}

// placeIndex says where the first n records are, from 1. Lists that begin alike share
// one.
type placeIndex struct {
	at map[string]int
	n  int
}

// placeOf gives the place of a record from 0, -1 if there is none; of several with
// the same ID the first. The list is a slice of records.
func placeOf(list reflect.Value, id string) int {
	if list.Len() < shortList {
		return scan(list, id)
	}
	places.Lock()
	defer places.Unlock()
	l := remembered(list)
	if l.index == nil || l.index.n < list.Len() {
		if l.asked++; l.asked <= askedFirst {
			return scan(list, id)
		}
		l.index = indexOf(list)
	}
	if i := l.index.at[id] - 1; i < list.Len() {
		return i
	}
	return -1
}

func indexOf(list reflect.Value) *placeIndex {
	index := &placeIndex{at: make(map[string]int, list.Len()), n: list.Len()}
	for i := range index.n {
		if key := *idAt(list, i); index.at[key] == 0 {
			index.at[key] = i + 1
		}
	}
	return index
}

// remembered finds or begins what is known of a list. The caller holds the lock.
func remembered(list reflect.Value) *listed {
	key := weak.Make(idAt(list, 0))
	l, ok := places.of[key]
	if !ok {
		if len(places.of) >= mostLists {
			clear(places.of)
		}
		l = &listed{}
		places.of[key] = l
	}
	return l
}

// alike tells that the list after holds the same IDs in the same places as the list
// before, with at most one more at its end: the index goes over to it.
func alike(before, after reflect.Value) {
	n := before.Len()
	if n < shortList {
		return
	}
	places.Lock()
	defer places.Unlock()
	index := remembered(before).index
	if index == nil || after.Len() > n && index.n != n {
		return // another list has grown from the same beginning
	}
	if after.Len() > n {
		index.at[*idAt(after, n)], index.n = n+1, n+1
	}
	remembered(after).index = index
}

func scan(list reflect.Value, id string) int {
	for i := range list.Len() {
		if *idAt(list, i) == id {
			return i
		}
	}
	return -1
}

// idAt points to the ID of a record, its first field.
func idAt(list reflect.Value, i int) *string {
	return list.Index(i).Field(0).Addr().Interface().(*string)
}

package fieldkit

import (
	"iter"
	"slices"
)

// List is a long list of records of which an edit copies only a small part: the
// records stand in blocks, and lists that came from one another share the blocks
// that are alike. What a list holds never changes; With, and the Collection's Put
// and Remove, make another list. The zero value is the empty list. Lists of the same
// records are equal by reflect.DeepEqual, however they came about.
//
//	for i, p := range kit.Parts.All() { … }
//	n := kit.Parts.Len()
//	first := kit.Parts.At(0)
//	kit.Parts = kit.Parts.With(part)             // one more at the end
//	kit.Parts = fieldkit.ListOf([]Part{a, b})   // from a slice, and Slice back
type List[T Record] struct {
	blocks [][]*T // all of blockSize, only the last shorter; none is empty
}

// blockSize is near the square root of the longest list there is, so that a block and
// the list of blocks are equally short.
const blockSize = 512

// ListOf makes a list of the records. They are not copied: the slice is the list's
// from here on.
func ListOf[T Record](records []T) List[T] {
	var l List[T]
	if len(records) == 0 {
		return l
	}
	l.blocks = make([][]*T, 0, (len(records)+blockSize-1)/blockSize)
	for part := range slices.Chunk(records, blockSize) {
		block := make([]*T, len(part))
		for i := range part {
			block[i] = &part[i]
		}
		l.blocks = append(l.blocks, block)
	}
	return l
}

// Len counts the records.
func (l List[T]) Len() int {
	n := len(l.blocks)
	if n == 0 {
		return 0
	}
	return (n-1)*blockSize + len(l.blocks[n-1])
}

// At returns the record at a place from 0 to Len()-1.
func (l List[T]) At(i int) T { return *l.Ref(i) }

// Ref points to the record at a place. Whoever did not just make the list must not
// change it: other lists share the record.
func (l List[T]) Ref(i int) *T { return l.blocks[i/blockSize][i%blockSize] }

// All goes through the places and records in their order.
func (l List[T]) All() iter.Seq2[int, T] {
	return func(yield func(int, T) bool) {
		for i, r := range l.Refs() {
			if !yield(i, *r) {
				return
			}
		}
	}
}

// Refs is All without copying: for looking through a long list for a few records. As
// with Ref, what it gives is shared.
func (l List[T]) Refs() iter.Seq2[int, *T] {
	return func(yield func(int, *T) bool) {
		for b, block := range l.blocks {
			for i, r := range block {
				if !yield(b*blockSize+i, r) {
					return
				}
			}
		}
	}
}

// Slice copies the records into a slice.
func (l List[T]) Slice() []T {
	if len(l.blocks) == 0 {
		return nil
	}
	s := make([]T, 0, l.Len())
	for _, block := range l.blocks {
		for _, r := range block {
			s = append(s, *r)
		}
	}
	return s
}

// Same reports whether two lists are one, or both empty: what was worked out from the
// one holds for the other.
func (l List[T]) Same(other List[T]) bool {
	return len(l.blocks) == len(other.blocks) && (len(l.blocks) == 0 || &l.blocks[0] == &other.blocks[0])
}

// With returns the list with more records at its end.
func (l List[T]) With(records ...T) List[T] {
	records = slices.Clone(records)
	refs := make([]*T, len(records))
	for i := range records {
		refs[i] = &records[i]
	}
	return l.splice(l.Len(), 0, refs...)
}

// Find returns the record of that ID; ok is false if there is none.
func (l List[T]) Find(id string) (r T, ok bool) {
	if i := placeOf(l, id); i >= 0 {
		return l.At(i), true
	}
	return r, false
}

// Place gives the place of the record of that ID, -1 if there is none.
func (l List[T]) Place(id string) int { return placeOf(l, id) }

// splice returns the list with records in the place of some others, from a place on. What
// stands before them is shared, what stands behind is copied.
func (l List[T]) splice(place, out int, in ...*T) List[T] {
	n := l.Len() - out + len(in)
	if n == 0 {
		return List[T]{}
	}
	shared := place / blockSize
	blocks := make([][]*T, shared, (n+blockSize-1)/blockSize)
	copy(blocks, l.blocks)
	add := func(refs []*T) {
		for len(refs) > 0 {
			last := len(blocks) - 1
			if last < shared || len(blocks[last]) == blockSize {
				last++
				blocks = append(blocks, make([]*T, 0, min(blockSize, n-last*blockSize)))
			}
			fits := min(len(refs), blockSize-len(blocks[last]))
			blocks[last] = append(blocks[last], refs[:fits]...)
			refs = refs[fits:]
		}
	}
	if begun := place % blockSize; begun > 0 {
		add(l.blocks[shared][:begun])
	}
	add(in)
	for at := place + out; at < l.Len(); {
		rest := l.blocks[at/blockSize][at%blockSize:]
		add(rest)
		at += len(rest)
	}
	return List[T]{blocks}
}

// The methods below let a Collection and the reader and writer of kit files treat
// lists of all kinds of record alike.

// Record points to the record at a place, as Ref does.
func (l List[T]) Record(i int) Record { return any(l.Ref(i)).(Record) }

// Fill makes a list of n empty records, to be filled in through Record.
func (l *List[T]) Fill(n int) { *l = ListOf(make([]T, n)) }

// More points to one more empty record at the end of a list that nobody else has yet, to
// be filled in.
func (l *List[T]) More() Record {
	if n := len(l.blocks); n == 0 || len(l.blocks[n-1]) == blockSize {
		l.blocks = append(l.blocks, nil)
	}
	last := &l.blocks[len(l.blocks)-1]
	r := new(T)
	*last = append(*last, r)
	return any(r).(Record)
}

func (l List[T]) idAt(i int) string { return (*l.Ref(i)).Key() }

func (l List[T]) place(id string) int { return placeOf(l, id) }

// Empty is a record with nothing in it.
func (l List[T]) Empty() Record {
	var r T
	return r
}

// put replaces the record of that ID, or puts a new one at a place.
func (l *List[T]) put(record Record, place int) {
	r, old := record.(T), *l
	if i := placeOf(old, r.Key()); i >= 0 {
		l.blocks = slices.Clone(old.blocks)
		l.blocks[i/blockSize] = slices.Clone(old.blocks[i/blockSize])
		l.blocks[i/blockSize][i%blockSize] = &r
		goOver(old, *l)
		return
	}
	place = min(max(place, 0), old.Len())
	*l = old.splice(place, 0, &r)
	goOver(old, *l, move{place: place, id: r.Key(), in: true})
}

func (l *List[T]) remove(id string) {
	old := *l
	if i := placeOf(old, id); i >= 0 {
		*l = old.splice(i, 1)
		goOver(old, *l, move{place: i})
	}
}

func (l *List[T]) setAll(records []Record) {
	s := make([]T, len(records))
	for i, r := range records {
		s[i] = r.(T)
	}
	*l = ListOf(s)
}

// Changed gives the records that only the one or only the other of two lists has, told
// by their addresses: a changed record is one that is gone and one that came. Where one
// list came from the other it does not go through what they share.
func Changed[T Record](before, after List[T]) (gone, came []*T) {
	b, a := before.Len(), after.Len()
	shared := func(place int) bool { // whether the block that begins there is
		i := place / blockSize
		return place%blockSize == 0 && i < len(before.blocks) && i < len(after.blocks) &&
			&before.blocks[i][0] == &after.blocks[i][0] && len(before.blocks[i]) == len(after.blocks[i])
	}
	front, back := 0, 0 // how many at either end are the same
	for front < min(a, b) && (shared(front) || before.Ref(front) == after.Ref(front)) {
		if shared(front) {
			front += len(before.blocks[front/blockSize])
		} else {
			front++
		}
	}
	for a != b && back < min(a, b)-front && before.Ref(b-1-back) == after.Ref(a-1-back) {
		back++
	}
	between := func(l List[T], end int, see func(r *T)) {
		for i := front; i < end; i++ {
			if shared(i) {
				i += len(l.blocks[i/blockSize]) - 1
				continue
			}
			see(l.Ref(i))
		}
	}
	had := map[*T]bool{}
	between(before, b-back, func(r *T) { had[r] = true })
	between(after, a-back, func(r *T) {
		if had[r] {
			delete(had, r)
		} else {
			came = append(came, r)
		}
	})
	between(before, b-back, func(r *T) {
		if had[r] {
			gone = append(gone, r)
		}
	})
	return gone, came
}

package diary

import (
	"context"
	"fmt"
	"math/rand/v2"
	"strings"
	"time"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// stock is how many spares there are before the first action.
const stock = 1_000_000

// Kit is the kit a diary begins with.
func Kit() fieldkit.Kit {
	return fieldkit.Kit{
		Format: fieldkit.Format, Version: "1.0", ID: "diary", Name: "Dry Fork crew", Currency: "USD",
		Rigs:    []fieldkit.Rig{{ID: "rig", Name: "Bramble"}},
		Systems: []fieldkit.Assembly{{ID: "axle", Rig: "rig", Name: "front axle"}},
		Positions: fieldkit.ListOf([]fieldkit.Position{
			{ID: "joint", System: "axle", Name: "axle U-joint", Side: fieldkit.Left, Kind: "axle-u-joint", Quantity: 1, Part: "part"}}),
		Parts:  fieldkit.ListOf([]fieldkit.Part{{ID: "part", Kind: "axle-u-joint", Name: "axle U-joint"}}),
		Spares: fieldkit.ListOf([]fieldkit.Spare{{ID: "stock", Part: "part", Count: stock}}),
	}
}

// EntryID names the entry of an action.
func EntryID(n int) string { return fmt.Sprintf("act-%d", n) }

func noteID(n int) string    { return fmt.Sprintf("note-%d", n) }
func readingID(n int) string { return fmt.Sprintf("reading-%d", n) }

// words is what the note of an action says, a few hundred to a few thousand
// characters of it.
func words(n int) string {
	return fmt.Sprintf("action %d: seized at 40°, said \"ouch\" & drove on. ", n) + strings.Repeat(fmt.Sprintf("line %d. ", n*n), 20+n%180)
}

// Photo is the photo of an action; three of four have one, of 1 to 60 kB.
func Photo(n int) (journal.Blob, bool) {
	if n%4 == 0 {
		return journal.Blob{}, false
	}
	rnd := rand.New(rand.NewPCG(uint64(n), 7))
	data := make([]byte, 1000+rnd.IntN(60_000))
	for i := range data {
		data[i] = byte(rnd.Uint32())
	}
	return journal.NewBlob("image/jpeg", data), true
}

// at is the moment an action is stamped with, minutes apart.
func at(n int) fieldkit.Moment {
	return fieldkit.Moment{Time: time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC).Add(time.Duration(n) * time.Minute)}
}

// Do carries out action n on a session. Nil means acknowledged. To try again, call
// it with the same number.
func Do(ctx context.Context, s *journal.Session, n int, now fieldkit.Moment) error {
	var blobs []journal.Blob
	var photos []string
	if b, ok := Photo(n); ok {
		blobs, photos = append(blobs, b), append(photos, b.Hash)
	}
	_, err := s.Do(ctx, fmt.Sprintf("log failure: number %d", n), now, func() string { return EntryID(n) }, func(ed *journal.Edit) error {
		spare, ok := ed.Kit().Spares.Find("stock")
		if !ok {
			return fmt.Errorf("the stock is gone")
		}
		spare.Count--
		ed.Put(spare)
		ed.Put(fieldkit.Failure{ID: noteID(n), Rig: "rig", Position: "joint", Part: "part", On: fieldkit.DateOf(at(n).Time), What: words(n), Photos: photos})
		ed.Put(fieldkit.Inspection{ID: readingID(n), Position: "joint", On: fieldkit.DateOf(at(n).Time), Name: "play",
			Value: fieldkit.Value{Dim: fieldkit.DimLength, Base: int64(n)}})
		return nil
	}, blobs...)
	return err
}

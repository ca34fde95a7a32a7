package browserstore

import (
	"context"
	"syscall/js"
)

// Texts are short texts of this device by name, such as what is being typed. They
// are not part of a kit. A database of the same form as a kit's holds them, in its
// object store meta.
type Texts struct{ store *Store }

// OpenTexts opens the database of that name, creating it if there is none. Errors
// are as for Open.
func OpenTexts(ctx context.Context, name string) (*Texts, error) {
	s, err := Open(ctx, name)
	if err != nil {
		return nil, err
	}
	return &Texts{s}, nil
}

// All returns every text by its name.
func (t *Texts) All(ctx context.Context) (map[string]string, error) {
	var all map[string]string
	err := t.store.run(ctx, "read what was typed", readOnly, []string{meta}, func(tx *transaction) {
		all = map[string]string{}
		tx.then(tx.store(meta).Call("getAll"), func(result js.Value) {
			for _, v := range list(result) {
				all[text(v.Get("name"))] = text(v.Get("text"))
			}
		})
	})
	return all, err
}

// Put writes texts, all or none of them; an empty one is removed. They are on disk
// when it returns.
func (t *Texts) Put(ctx context.Context, changed map[string]string) error {
	return t.store.run(ctx, "keep what was typed", readWrite, []string{meta}, func(tx *transaction) {
		for name, value := range changed {
			if value == "" {
				tx.store(meta).Call("delete", name)
				continue
			}
			tx.store(meta).Call("put", object(map[string]any{"name": name, "text": value}))
		}
	})
}

// Close lets go of the database.
func (t *Texts) Close() error { return t.store.Close() }

package browserstore

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestTexts(t *testing.T) {
	needDatabase(t)
	open := func() *Texts {
		texts, err := OpenTexts(ctx, "texts of a device")
		require.NoError(t, err)
		return texts
	}
	texts := open()
	t.Cleanup(func() { require.NoError(t, Delete(ctx, "texts of a device")) })

	all, err := texts.All(ctx)
	require.NoError(t, err)
	require.Empty(t, all)

	require.NoError(t, texts.Put(ctx, map[string]string{"a": "1-3/8 in", "b": "größer\n𝄞", "c": "x"}))
	require.NoError(t, texts.Put(ctx, map[string]string{"a": "1-1/2 in", "c": "", "never there": ""}))
	require.NoError(t, texts.Close())
	require.Error(t, texts.Put(ctx, map[string]string{"a": "late"}))

	texts = open()
	defer texts.Close()
	all, err = texts.All(ctx)
	require.NoError(t, err)
	require.Equal(t, map[string]string{"a": "1-1/2 in", "b": "größer\n𝄞"}, all)
}

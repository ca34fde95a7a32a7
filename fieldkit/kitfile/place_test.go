package kitfile_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

func TestPlace(t *testing.T) {
	text := []byte("{\n  \"repairs\": [\n    {\"id\": \"a\"},\n    {\"id\": \"b\",\n     \"hands\": 0}\n  ]\n}\n")
	require.NoError(t, kitfile.Place("r.json", text, nil))

	err := kitfile.Place("r.json", text, []kitfile.Problem{
		{Pointer: "/repairs/1/hands", What: "0 hands cannot do it", Do: "write 1 or more"},
		{Pointer: "/repairs/0/steps", What: "there are no steps", Do: "write one"},
	})
	var found *kitfile.Problems
	require.True(t, errors.As(err, &found))
	require.Len(t, found.List, 2)
	assert.Equal(t, 3, found.List[0].Line, "a field that is missing is placed at what should hold it")
	assert.Equal(t, 5, found.List[1].Line)
	assert.Equal(t, fieldkit.BadInput, found.List[1].Kind)
	assert.Equal(t, `r.json, line 5, repair "b", hands: 0 hands cannot do it; write 1 or more`, found.List[1].Error("r.json").Error())
}

package app

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

func TestCurve(t *testing.T) {
	kg := fieldkit.Kilogram
	curve := []spares.CurvePoint{{Limit: 0, Value: 0}, {Limit: 10 * kg, Mass: 9 * kg, Value: 2}, {Limit: 20 * kg, Mass: 18 * kg, Value: 3}, {Limit: 30 * kg, Mass: 20 * kg, Value: 3}}
	assert.Equal(t, "With up to 10 kg the best list saves 2.0 h on average. Up to 20 kg it saves 3.0 h.", curveWords(curve, 12*kg, fieldkit.Metric, false))
	assert.Equal(t, "With up to 20 kg the best list saves ≈ 3.0 h (guess) on average. More weight saves no more.", curveWords(curve, 20*kg, fieldkit.Metric, true))

	drawing := curveDrawing(curve, 15*kg, 30*kg, `a "quoted" <word>`)
	decoder := xml.NewDecoder(strings.NewReader(drawing))
	shapes := map[string]int{}
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err, drawing)
		if e, ok := token.(xml.StartElement); ok {
			shapes[e.Name.Local]++
			for _, a := range e.Attr {
				assert.NotEqual(t, "style", a.Name.Local)
			}
		}
	}
	assert.Equal(t, 1, shapes["circle"])
	assert.Equal(t, 1, shapes["polyline"])
	assert.Contains(t, drawing, `cx="160.0" cy="30.0"`, "half way between 10 and 20 kg, 2 and 3 h")
	wide := curveDrawing(curve, 60*kg, 60*kg, "")
	assert.Contains(t, wide, `cx="310.0" cy="10.0"`, "at the slider's end, level beyond the last point")
	assert.Contains(t, wide, "160.0,10.0 310.0,10.0", "30 kg is half of the way")
	assert.NotContains(t, curveDrawing([]spares.CurvePoint{{}, {}}, 0, 0, ""), "NaN")
}

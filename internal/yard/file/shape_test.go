package file

import (
	"testing"

	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

func TestShapes(t *testing.T) {
	y, err := Parse("example.toml", Example)
	require.NoError(t, err)
	south, _ := y.Tank("south")
	require.Equal(t, yard.Lying, south.Shape.Form)
	require.Equal(t, yard.Ellipsoidal, south.Shape.Heads)
	near(t, 78*0.0254, south.Shape.Diameter)
	near(t, 0.0254, south.Shape.Division)
	y = parse(t, "[[storage_tank]]\nname = \"pit\"\ncapacity = \"900gal\"\ndepths = [[\"12in\", \"410gal\"], [\"24in\", \"835gal\"]]")
	require.Equal(t, yard.MarkedTank, y.Tanks[0].Shape.Form)
	require.Len(t, y.Tanks[0].Shape.Marks, 2)
}

func TestShapesRefused(t *testing.T) {
	const tank = "[[storage_tank]]\nname = \"pit\"\ncapacity = \"900gal\"\n"
	for text, want := range map[string]string{
		"shape = \"barrel\"":                `shape = "barrel": not known; allowed: box, horizontal, vertical`,
		"shape = \"vertical\"":              "a round tank needs its diameter",
		"shape = \"box\"\nlength = \"3ft\"": "a box needs its width",
		"shape = \"horizontal\"\ndiameter = \"80in\"\nlength = \"9ft\"\nheads = \"round\"": `heads = "round": not known; allowed: conical, ellipsoidal, flat, spherical, torispherical`,
		"depths = [[\"12in\", \"410gal\"], [\"24in\", \"300gal\"]]":                        "depths and volumes of a measured tank must rise",
		"depths = [[\"12in\"]]": "row 1 of depths is no pair of depth and volume",
		"depths = 7":            "depths takes a list of pairs",
		"shape = \"vertical\"\ndiameter = \"80in\"\ndepths = [[\"12in\", \"410gal\"], [\"24in\", \"500gal\"]]": "two descriptions",
	} {
		_, err := Parse("north.toml", []byte(tank+text))
		require.Error(t, err, text)
		require.Contains(t, allFaults(err), want, text)
	}
}

package sheet

// A tint is a colour by its purpose. The page gives each one a custom property of the same name.
type tint string

// A palette gives tints their colours. A tint that starts with # is itself in every palette.
type palette map[tint]string

func (p palette) colour(t tint) string {
	if c, ok := p[t]; ok {
		return c
	}
	return string(t)
}

// swatches holds every tint: by day, as a blueprint, on paper, and in the small picture, whose mid
// tones must do on light and dark alike. The first eleven by day and as a blueprint are those of
// the look of the page.
var swatches = []struct {
	tint                           tint
	day, blueprint, paper, picture string
}{
	{"sheet", "#f7f4ec", "#11212e", "#ffffff", "#f2efe6"},
	{"bench", "#e4dfd3", "#0b1720", "#ffffff", "#6c7881"},
	{"ink", "#22303a", "#e8eef1", "#1a2229", "#2b3740"},
	{"pencil", "#5d6872", "#9fb0bc", "#5d6872", "#6c7881"},
	{"accent", "#1b5e9e", "#7cc0ff", "#1b5e9e", "#1b5e9e"},
	{"stop", "#a3231b", "#ff9a8f", "#a3231b", "#a3231b"},
	{"mind", "#7a5200", "#f0c36a", "#7a5200", "#7a5200"},
	{"note", "#3b6a4a", "#8fd0a6", "#3b6a4a", "#3b6a4a"},
	{"phenolic", "#d8b67c", "#6f5730", "#f3e6cd", "#c9a566"},
	{"epoxy", "#8fae97", "#3c5a47", "#e3ece4", "#86a690"},
	{"copper", "#b06a2c", "#d08a4a", "#c98a52", "#b06a2c"},
	{"tinned", "#8d979f", "#b9c4cc", "#b4bcc2", "#a3acb3"},
	{"bright", "#eef2f4", "#f4f8fa", "#ffffff", "#eef2f4"},
	{"solder", "#d3dade", "#dfe6ea", "#d8dde0", "#c3cacf"},
	{"pad", "#a7b2b5", "#7d918c", "#c9d0d4", "#a3acb3"},
	{"foil", "#bb7a42", "#b57a45", "#d3a06f", "#b06a2c"},
	{"bore", "#4a554d", "#16262a", "#ffffff", "#5d6e61"},
	{"groove", "#98a2a9", "#33434f", "#ffffff", "#98a2a9"},
	{"plastic", "#d5d0c3", "#2a4254", "#ecebe6", "#c9c4b7"},
	{"cap", "#fcfaf4", "#172c3c", "#ffffff", "#fbf8f0"},
	{"mask", "#b7cbd6", "#1c3f57", "#e6eef3", "#9db6c4"},
	{"glass", "#2a3742", "#050d14", "#dfe4e8", "#2a3742"},
	{"lit", "#b9e0f7", "#8fd4ff", "#5d6872", "#b9e0f7"},
	{"chip", "#3a444c", "#0a151d", "#d3d8dc", "#3a444c"},
	{"print", "#f4f6f7", "#e8eef1", "#1a2229", "#f4f6f7"},
	{"steel", "#c3cacf", "#74848f", "#e2e6e9", "#bcc4ca"},
	{"clay", "#e7d3a8", "#8d7a52", "#f3ead6", "#dfc999"},
}

// paletteOf picks one column of the swatches.
func paletteOf(s Style) palette {
	p := palette{}
	for _, w := range swatches {
		p[w.tint] = w.paper
		if s == Picture {
			p[w.tint] = w.picture
		}
	}
	return p
}

// bandColours are the colours of the digits and multipliers of IEC 60062, gold and silver last.
// The shades are ours.
var bandColours = [...]tint{"#1c1c1c", "#7a4a1e", "#c3281f", "#e0771b", "#e8c51e", "#2f8a43", "#2a5fb0", "#7d46a5", "#8b9299", "#f6f6f2", "#c19a3a", "#b9c1c7"}

// wireColours are the letters of IEC 60757 that hook-up wire is sold in. The shades are ours.
var wireColours = []struct {
	letters string
	tint    tint
}{
	{"BK", "#26292c"}, {"BN", "#80501f"}, {"RD", "#c62f26"}, {"OG", "#e5801f"}, {"YE", "#ecc92a"},
	{"GN", "#2f9149"}, {"BU", "#2f68bd"}, {"VT", "#844bb0"}, {"GY", "#8f979e"}, {"WH", "#fafaf6"},
	{"PK", "#ea93b1"}, {"GD", "#c19a3a"}, {"TQ", "#33aeae"}, {"SR", "#c3cacf"},
}

// ledColours are the lenses by the colour names of part.Colours. The shades are ours.
var ledColours = []struct {
	name string
	tint tint
}{
	{"red", "#e2473c"}, {"orange", "#f08a2c"}, {"yellow", "#f2cf3a"}, {"green", "#4fae5d"},
	{"bright-green", "#3fcf8a"}, {"blue", "#4a86e0"}, {"white", "#fbfbf5"}, {"violet", "#9a63cf"}, {"infrared", "#8c6f7d"},
}

// Package static holds what the pages load: the stylesheet, the ES modules and the icons. There is no
// build step; the files are served as they are.
package static

import "embed"

// Files holds css, js and icons.
//
//go:embed css js icons
var Files embed.FS

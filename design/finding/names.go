package finding

import (
	"fmt"
	"strings"
)

// mostNames is how many names a sentence carries before it counts the rest.
const mostNames = 6

// Names writes names as a sentence does: "S1", "S1 and S2", "S1, S2 and S3". Of more than six it
// writes the first five and counts the others, so that a finding stays one line.
func Names(names []string) string {
	if n := len(names); n > mostNames {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:mostNames-1], ", "), n-mostNames+1)
	} else if n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}

package finding

import "testing"

func TestNames(t *testing.T) {
	tests := []struct {
		names []string
		want  string
	}{
		{nil, ""},
		{[]string{"S1"}, "S1"},
		{[]string{"S1", "S2"}, "S1 and S2"},
		{[]string{"S1", "S2", "S3"}, "S1, S2 and S3"},
		{[]string{"a", "b", "c", "d", "e", "f"}, "a, b, c, d, e and f"},
		{[]string{"a", "b", "c", "d", "e", "f", "g", "h"}, "a, b, c, d, e and 3 more"},
	}
	for _, tt := range tests {
		if got := Names(tt.names); got != tt.want {
			t.Errorf("Names(%q) = %q, want %q", tt.names, got, tt.want)
		}
	}
}

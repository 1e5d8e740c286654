package main

import (
	"slices"
	"strings"
	"testing"
)

// The lines are those of go doc test2json.
func TestReadCounts(t *testing.T) {
	stream := strings.Join([]string{
		`{"Action":"start","Package":"a"}`,
		`{"Action":"run","Package":"a","Test":"TestGood"}`,
		`{"Action":"output","Package":"a","Test":"TestGood","Output":"chatter\n"}`,
		`{"Action":"pass","Package":"a","Test":"TestGood","Elapsed":0.1}`,
		`{"Action":"output","Package":"a","Test":"TestBad","Output":"    it is wrong\n"}`,
		`{"Action":"fail","Package":"a","Test":"TestBad","Elapsed":0.1}`,
		`{"Action":"skip","Package":"a","Test":"TestSkips","Elapsed":0}`,
		`{"Action":"fail","Package":"a","Elapsed":0.3}`,
		`# a compiler's words`,
		`{"Action":"skip","Package":"no tests here"}`,
	}, "\n")
	var out strings.Builder
	h := &house{out: &out}
	h.read(strings.NewReader(stream))
	if want := [3]int{1, 2, 1}; h.counts != want {
		t.Errorf("counts are %v, want %v: one passed, a test and its package failed, one skipped", h.counts, want)
	}
	for _, want := range []string{"FAIL a TestBad", "it is wrong", "SKIP a TestSkips"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("output lacks %q:\n%s", want, out.String())
		}
	}
	if strings.Contains(out.String(), "chatter") {
		t.Errorf("output of a passed test is shown:\n%s", out.String())
	}
}

func TestByProperty(t *testing.T) {
	plain, drawn := byProperty("fascia/a [testing] []\nfascia/b [testing pgregory.net/rapid] []\nfascia/c [] [pgregory.net/rapid]\n\n")
	if !slices.Equal(plain, []string{"fascia/a"}) || !slices.Equal(drawn, []string{"fascia/b", "fascia/c"}) {
		t.Errorf("plain %v, drawn %v", plain, drawn)
	}
}

func TestParseTargets(t *testing.T) {
	got := parseTargets("FuzzOne\nFuzzTwo\nok  \tfascia/design/panel\t0.01s\nok  \tfascia/store\t0.02s\n?   \tfascia/x\t[no test files]\nFuzzThree\nok  \tfascia/design/part\t0.1s\n")
	want := []target{{"fascia/design/panel", "FuzzOne"}, {"fascia/design/panel", "FuzzTwo"}, {"fascia/design/part", "FuzzThree"}}
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

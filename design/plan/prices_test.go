package plan_test

import (
	"encoding/json"
	"slices"
	"sync"
	"testing"

	"fascia/design/panel"
	"fascia/design/pinning"
	"fascia/design/plan"
)

// Each wish has its price, the same whoever asks, and plan.json holds them.
func TestEachWishHasItsPrice(t *testing.T) {
	p := reachable(t, "hive-notebook", map[string]string{"U2.SDA": "GP26"}, "GP21")
	pl := plan.Make(&p)
	var asked sync.WaitGroup
	for range 4 {
		asked.Go(func() { pl.Prices() })
	}
	asked.Wait()
	var got []string
	for _, price := range pl.Prices() {
		got = append(got, price.Kind+" "+price.Wish)
	}
	if want := []string{"lock U2.SDA", "keep GP21", "spare serial console", "spare analogue pins"}; !slices.Equal(got, want) {
		t.Errorf("prices of %q, want %q", got, want)
	}
	lock := pl.Prices()[0]
	free := p.Clone()
	delete(free.Pins.Locked, "U2.SDA")
	if without := plan.Make(&free).Pins.Cost; lock.Length != pl.Pins.Cost-without || lock.Length <= 0 {
		t.Errorf("the lock is said to cost %v holes; %v with it and %v without", lock.Length, pl.Pins.Cost, without)
	}
	var told struct{ Prices []pinning.Price }
	if err := json.Unmarshal(filesOf(t, pl)["plan.json"].Data, &told); err != nil || len(told.Prices) != len(got) {
		t.Errorf("plan.json tells of %d prices, %v", len(told.Prices), err)
	}
	empty := panel.New("empty")
	if list := plan.Make(&empty).Prices(); len(list) != 0 {
		t.Errorf("an empty panel has prices %v", list)
	}
}

package panel

import (
	"strings"
)

// SetLegend types a legend on a key. A contact that was no key becomes one.
type SetLegend struct {
	Key    string `json:"key"`
	Legend string `json:"legend"`
}

// Do is the edit's name.
func (e *SetLegend) Do() string { return "legend" }

// Label names the key.
func (e *SetLegend) Label() string { return "Legend of " + e.Key }

func (e *SetLegend) apply(p *Panel) error {
	return p.changeKey(e.Key, func(k *Key) { k.Legend = strings.TrimSpace(e.Legend) })
}

// SetUsage gives a key its USB HID usage as page:id in hexadecimal; "" takes it away.
type SetUsage struct {
	Key   string `json:"key"`
	Usage string `json:"usage"`
}

// Do is the edit's name.
func (e *SetUsage) Do() string { return "usage" }

// Label names the key.
func (e *SetUsage) Label() string { return "Usage of " + e.Key }

func (e *SetUsage) apply(p *Panel) error {
	return p.changeKey(e.Key, func(k *Key) { k.Usage = strings.ToUpper(strings.TrimSpace(e.Usage)) })
}

// SetDirect asks for a pin of its own for a key, or takes that back.
type SetDirect struct {
	Key    string `json:"key"`
	Direct bool   `json:"direct"`
}

// Do is the edit's name.
func (e *SetDirect) Do() string { return "direct" }

// Label names the key.
func (e *SetDirect) Label() string {
	if e.Direct {
		return "Own pin for " + e.Key
	}
	return "No own pin for " + e.Key
}

func (e *SetDirect) apply(p *Panel) error {
	return p.changeKey(e.Key, func(k *Key) { k.Direct = e.Direct })
}

// Unkey makes a contact no key any more; chords forget it.
type Unkey struct {
	Key string `json:"key"`
}

// Do is the edit's name.
func (e *Unkey) Do() string { return "unkey" }

// Label names the key.
func (e *Unkey) Label() string { return "No key " + e.Key }

func (e *Unkey) apply(p *Panel) error {
	ref, contact, _ := strings.Cut(e.Key, ".")
	pl := p.Find(ref)
	if pl == nil {
		return refuse("%s is not on the panel any more", ref)
	}
	_, several := pl.Keys[contact]
	switch {
	case contact == "" && pl.Key != nil:
		pl.Key = nil
	case several:
		delete(pl.Keys, contact)
	default:
		return refuse("%s is no key", e.Key)
	}
	for i := range p.Chords {
		p.Chords[i].forget(func(k string) bool { return k == e.Key })
	}
	return nil
}

// changeKey finds the contact that id names and changes what it means.
func (p *Panel) changeKey(id string, change func(*Key)) error {
	ref, contact, _ := strings.Cut(id, ".")
	pl := p.Find(ref)
	if pl == nil {
		return refuse("%s is not on the panel any more", ref)
	}
	d := p.Parts[pl.Part]
	if len(d.Contacts) == 1 && contact == "" {
		if pl.Key == nil {
			pl.Key = &Key{}
		}
		change(pl.Key)
		return nil
	}
	if _, ok := d.Contact(contact); !ok || contact == "" || len(d.Contacts) == 1 {
		return refuse("%s has no contact for key %s", ref, id)
	}
	if pl.Keys == nil {
		pl.Keys = map[string]Key{}
	}
	k := pl.Keys[contact]
	change(&k)
	pl.Keys[contact] = k
	return nil
}

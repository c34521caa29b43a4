package season

import (
	"fmt"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/state"
)

// figuresOf names the figures of a report as the ledger does.
func figuresOf(p Report) map[string]float64 {
	f := map[string]float64{
		"entries": float64(p.Entries), "paid": float64(p.Paid), "batches": float64(len(p.Batches)),
		"band in": float64(p.Judged.In), "band edge": float64(p.Judged.Edge), "band weak": float64(p.Judged.Weak), "band strong": float64(p.Judged.Strong),
		"pile opening": float64(p.Salt.Opening), "pile closing": float64(p.Salt.Closing), "pile delivered": float64(p.Salt.Delivered),
		"pile gone": float64(p.Salt.Gone), "pile in brine": float64(p.Salt.InBrine), "pile moisture": float64(p.Salt.Moisture),
		"pile sludge": float64(p.Salt.Insolubles), "pile unexplained": float64(p.Salt.Unexplained),
		"pile elsewhere": float64(p.Salt.Elsewhere), "pile on beds": float64(p.Salt.OnBeds),
		"left out": float64(p.LeftOut), "rinsed": float64(p.Rinsed), "hours": float64(p.Hours), "distance": float64(p.Distance),
	}
	for c, flow := range p.Flows {
		path := "flow " + state.Class(c).String() + " "
		switch state.Class(c) {
		case state.Made, state.PutIn, state.Rinsed, state.Mixed:
			continue // in other figures, and in the sum of all
		}
		f[path+"volume"], f[path+"nacl"] = float64(flow.Volume), flow.Masses.NaCl
		if state.Class(c) != state.Laid && state.Class(c) != state.Delivered {
			f[path+"salt"] = float64(flow.Salt)
		}
	}
	for _, m := range p.Stocks {
		if m.Closing != 0 {
			f["stood "+m.Month.Format("2006-01")+" "+m.Liquid] = float64(m.Closing)
		}
	}
	masses(f, "opening ", p.Opening)
	masses(f, "closing ", p.Closing)
	masses(f, "across ", p.Across)
	for _, l := range p.Months {
		path := l.Month.Format("2006-01") + " " + l.Liquid + " "
		line(f, path, l)
		f[path+"used"], f[path+"cost"] = float64(l.Used), cost(l.Cost)
	}
	line(f, "total ", p.Total)
	f["at prices"] = cost(p.AtYardPrices)
	for i, b := range p.Batches {
		f[fmt.Sprint("batch ", i)] = float64(b.Strength)
	}
	for _, o := range p.Operators {
		path := "operator " + o.Name + " "
		f[path+"batches"], f[path+"in"], f[path+"loads"], f[path+"entries"] = float64(o.Batches), float64(o.InBand), float64(o.Loads), float64(o.Entries)
		f[path+"hours"], f[path+"distance"] = float64(o.Hours), float64(o.Distance)
	}
	for _, r := range p.Routes {
		path := "route " + r.Name + " "
		f[path+"loads"], f[path+"volume"], f[path+"chloride"], f[path+"rate"] = float64(r.Loads), float64(r.Volume), float64(r.Chlorides), float64(r.Rate)
		f[path+"salt"] = float64(r.Salt)
	}
	for _, c := range p.Cleanings {
		path := "cleaning " + c.Tank + " "
		f[path+"learned"], f[path+"interval"], f[path+"usual"] = float64(c.Learned), float64(c.Interval), float64(c.Sludge)
		f[path+"since"], f[path+"sludge"], f[path+"left"] = float64(c.Since), float64(c.Insolubles), float64(c.Left)
		if !c.Date.IsZero() {
			f[path+"due"] = float64(c.Date.Unix())
		}
	}
	return f
}

func line(f map[string]float64, path string, l Line) {
	f[path+"moved"] = float64(l.Moved)
	f[path+"made"], f[path+"laid"], f[path+"delivered"] = float64(l.Made), float64(l.Laid), float64(l.Delivered)
	f[path+"salt"], f[path+"water"], f[path+"spread"] = float64(l.Salt), float64(l.Water), float64(l.Spread)
	f[path+"nacl"], f[path+"chloride"] = float64(l.NaCl), float64(l.Chlorides)
}

// notKnown stands for a cost without a price.
const notKnown = -1

func cost(m *quantity.Money) float64 {
	if m == nil {
		return notKnown
	}
	return float64(*m)
}

// masses names what liquids consist of; the solutes of the product are 48 % of it.
func masses(f map[string]float64, path string, m balance.Masses) {
	f[path+"product"] = m.Other / testProduct.Solute
	f[path+"water"] = m.Water - (1-testProduct.Solute)*f[path+"product"]
	f[path+"nacl"], f[path+"kcl"], f[path+"cacl2"], f[path+"mgcl2"] = m.NaCl, m.KCl, m.CaCl2, m.MgCl2
}

// standingIn names what stands in the yard as the ledger does.
func standingIn(s *state.State) map[string]float64 {
	f := map[string]float64{"pile": float64(s.Pile), "pile wet": float64(s.PileSalt.Moisture), "pile pure": s.PileSalt.SodiumChloride()}
	for _, tank := range s.Tanks() {
		path := "tank " + tank.Name
		stockIn(f, path, &tank.Stock)
		f[path+" bed"] = float64(tank.OnFloor)
		if tank.Reading != nil {
			f[path+" read"] = float64(tank.Reading.True)
			if tank.Reading.Comparable {
				f[path+" drift"] = float64(tank.Reading.True - tank.Reading.Expected)
			}
		}
	}
	for _, stock := range s.Beside() {
		stockIn(f, "beside "+stock.Name, stock)
	}
	for _, truck := range s.Trucks() {
		stockIn(f, "truck "+truck.Name, &truck.Stock)
	}
	if s.PileCount != nil {
		f["pile expected"] = float64(s.PileCount.Expected)
	}
	return f
}

func stockIn(f map[string]float64, path string, stock *state.Stock) {
	masses(f, path+" ", stock.Masses())
	f[path+" volume"] = float64(stock.Volume())
	if stock.Mass > 0 {
		f[path+" is "+stock.Liquid.Name] = 1
	}
	for what, is := range map[string]bool{"known": stock.Known, "sure": stock.Sure} {
		if is {
			f[path+" "+what] = 1
		}
	}
}

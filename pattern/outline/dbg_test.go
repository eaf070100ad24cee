package outline
import ("testing";"math")
func TestDbg(t *testing.T){
 tr:=truths()[5]; dpi:=300.0; px:=mmPerInch/dpi
 r,_:=Read(scan(tr,spoils[3],dpi,3),"x",Options{DPI:dpi})
 mp:=whole(r)
 for _,c:=range tr.corners { ring:=mp[0][0]; best,bk:=math.Inf(1),0
  for k,v:=range ring { if d:=math.Hypot(v[0]-c[0],v[1]-c[1]);d<best{best,bk=d,k}}
  t.Logf("corner %v miss %.2f",c,best/px)
  for q:=-3;q<=3;q++ { v:=ring[(bk+q+len(ring)-1)%(len(ring)-1)]; t.Logf("   %.2f %.2f", (v[0]-c[0])/px,(v[1]-c[1])/px)}
 }
}

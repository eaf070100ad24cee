package outline
import ("testing";"image";"image/color";"os";"image/png";"strings")
func TestDbg(t *testing.T){
 for _,d:=range drawings { if !strings.Contains(d.name,"use,")&&!strings.Contains(d.name,"clip p")&&!strings.Contains(d.name,"nowhere")&&!strings.Contains(d.name,"loop") {continue}
  r,_:=Read([]byte(d.svg),d.name,Options{})
  want,w,h:=rendered(t,d.svg,5)
  got:=coverage(whole(r),w,h,5*96/mmPerInch)
  p:=image.NewRGBA(image.Rect(0,0,w,h))
  for k:=range got { p.SetRGBA(k%w,k/w,color.RGBA{uint8(255-255*want[k]),uint8(255-255*got[k]),255,255}) }
  f,_:=os.Create("/tmp/keep/"+strings.ReplaceAll(d.name," ","_")+".png"); png.Encode(f,p); f.Close()
 }
}

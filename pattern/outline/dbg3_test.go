package outline
import ("testing")
func BenchmarkRead(b *testing.B){
 tr:=truths()[4]; data:=scan(tr,spoils[4],300,0)
 b.ResetTimer()
 for range b.N { Read(data,"x",Options{DPI:300}) }
}

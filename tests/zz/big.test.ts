import ExcelJS from 'exceljs';import {test} from 'vitest';import {recalculatedCells} from '../support/libreoffice.ts';
import { HyperFormula } from 'hyperformula';import { registerRounding } from '../../engine/calc/roundingPlugin.ts';
test('big',async()=>{const w=new ExcelJS.stream.xlsx.WorkbookWriter({filename:'/tmp/sw/big.xlsx'});for(let s=0;s<20;s++){const sh=w.addWorksheet('S'+s);for(let r=1;r<=10000;r++)sh.addRow([r,1.5,{formula:`A${r}*B${r}`,result:-1},'t',{formula:`ROUND(C${r}/3,2)`,result:-1}]).commit();sh.commit();}await w.commit();
let t=performance.now();const m=await recalculatedCells('/tmp/sw/big.xlsx');console.log('big',m.size,m.get('S19')?.length,m.get('S19')?.[9999],(performance.now()-t)|0,'ms');
t=performance.now();
for (const reg of [false,true]){ if(reg)registerRounding(); for(const f of ['ROUND','ROUNDUP','CEILING','MOD']){const rows=Array.from({length:100000},(_,i)=>[i*0.0137+0.005,`=${f}(A${i+1},${f==='CEILING'||f==='MOD'?0.05:2})`]);t=performance.now();const e=HyperFormula.buildFromArray(rows,{licenseKey:'gpl-v3',smartRounding:false,maxRows:200000});console.log(reg?'ours':'stock',f,(performance.now()-t)|0,'ms');e.destroy();}}
},300000);

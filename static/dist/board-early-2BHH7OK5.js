import{a as t,b as a}from"./part-E2B6BU5G.js";import"./part-MUP7A4Y5.js";import"./part-AJJ3ULMT.js";var{board:o,team:r}=document.body.dataset;t(String(o)).catch(()=>{});a(String(r)).catch(()=>{});

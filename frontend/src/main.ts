import { mount } from 'svelte';
import App from './App.svelte';
import './look/tokens.css';
import './look/look.css';
import { house } from './places/shared/house.svelte';

const target = document.getElementById('app');
if (target) mount(App, { target });
void house.begin();
if ('serviceWorker' in navigator && import.meta.env.PROD) void navigator.serviceWorker.register('/sw.js');

import { mount } from 'svelte';
import App from './App.svelte';
import './look/tokens.css';
import './look/look.css';
import { register_worker, something_typed, survive_missing_parts } from './page_worker';
import { house } from './places/shared/house.svelte';

const target = document.getElementById('app');
if (target) mount(App, { target });
void house.begin();
if (import.meta.env.PROD) register_worker();
survive_missing_parts(something_typed);
